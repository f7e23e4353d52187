import { describe, expect, it } from 'vitest';
import { buildFixture } from '../../../src/fixtures/buildFixture.ts';
import { makeFixture } from '../../fixtures/sampleFixtures.ts';
import { setOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/**
 * A small bulb of flux F in the middle of a whole ball of thin cloth, transmittance t, reflectance r, radius R. Inside, every
 * reflection spreads evenly over the ball (an integrating sphere; IES Lighting Handbook, from memory), so the cloth
 * receives E = F / (4 pi R^2 (1 - r)) everywhere and shows L = t E / pi outside.
 */
const ball = (transmittance: number, reflectance: number) =>
  makeFixture({
    kind: 'lantern',
    shape: 'sphere',
    diameterM: 0.2,
    heightM: 0.2,
    bulbDiameterM: 0.008,
    transmittance,
    reflectance,
    output: { unit: 'lumens', value: 470 },
  });

describe('a ball lantern traced', () => {
  it.each([
    [0.45, 0.45],
    [0.7, 0.1],
    [0.3, 0.6],
  ])('of cloth t %f, r %f shows the luminance of an integrating sphere (1.5 %)', (t, r) => {
    const surfaces = buildFixture(ball(t, r));
    const expected = (t * 470) / (4 * Math.PI * 0.01 * (1 - r)) / Math.PI;
    for (const x of [0, 0.06]) {
      const { rgb, error, dropped } = traceRays(setOf(surfaces), [x, 0, 1], [0, 0, -1], 12_000, { maxDepth: 60 });
      expect(dropped).toBe(0);
      expect(Math.abs(rgb[1] / expected - 1)).toBeLessThan(Math.max(0.015, (4 * error) / expected));
      expect(error / expected).toBeLessThan(0.02);
    }
  });
});
