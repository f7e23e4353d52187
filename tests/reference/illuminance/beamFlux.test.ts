import { describe, expect, it } from 'vitest';
import { degFromRad } from '../../../src/core/units.ts';
import { buildFixture } from '../../../src/fixtures/buildFixture.ts';
import { fullAngleAtShare } from '../../../src/fixtures/emissionProfile.ts';
import { photometryFromFixture } from '../../../src/fixtures/photometry.ts';
import { makeFixture } from '../../fixtures/sampleFixtures.ts';
import { fluxLm, illuminanceLux } from '../../fixtures/surfaceQuadrature.ts';

/**
 * I = I0 cos^m with half of the peak at half of the beam angle: m = ln 0.5 / ln cos(beam/2), flux = 2 pi I0 / (m + 1).
 * Figures computed apart from this code for I0 = 10 000 cd. Inverse square and cosine: CIE S 017 (textbook).
 */
const panelOf = (beamAngleDeg: number, output: unknown) =>
  makeFixture({ kind: 'panel', widthM: 0.3, heightM: 0.3, beamAngleDeg, output });

describe('a beam stated by its peak and beam angle', () => {
  it.each([
    [10, 181.8062, 343.7074],
    [20, 45.2776, 1357.716],
    [60, 4.81884, 10798.0],
  ])('of %f degrees and 10 000 cd has exponent %f and %f lm', (beam, exponent, lumens) => {
    const panel = panelOf(beam, { unit: 'peakCandela', value: 10000 });
    const photometry = photometryFromFixture(panel);
    if (photometry.profile.type !== 'cosPower') throw new Error('expected a power of the cosine');
    expect(Math.abs(photometry.profile.exponent / exponent - 1)).toBeLessThan(2e-6);
    expect(Math.abs(photometry.fluxLm / lumens - 1)).toBeLessThan(5e-7);
    expect(Math.abs(fluxLm(buildFixture(panel)) / lumens - 1)).toBeLessThan(2e-6);
  });

  it('of 20 degrees has a field angle (10 %) of 36.2365 degrees: 2 acos(0.1^(1/45.2776))', () => {
    const { profile } = photometryFromFixture(panelOf(20, { unit: 'peakCandela', value: 1 }));
    expect(degFromRad(fullAngleAtShare(profile, 0.5))).toBeCloseTo(20, 8);
    expect(degFromRad(fullAngleAtShare(profile, 0.1))).toBeCloseTo(36.2365, 4);
  });

  it('of 120 degrees is Lambertian: flux = pi x peak', () => {
    const { profile, fluxLm: lumens } = photometryFromFixture(panelOf(120, { unit: 'peakCandela', value: 1000 }));
    expect(profile.type).toBe('lambert');
    expect(lumens).toBeCloseTo(1000 * Math.PI, 8);
  });

  it.each([
    [1000, 2, 0, 250],
    [1000, 2, 60, 125],
    [2500, 1.5, 30, 962.2504],
    [800, 3, 45, 62.85394],
  ])('%f cd from far compared with its size, %f m, receiver tilted %f degrees: %f lx', (cd, d, tiltDeg, lux) => {
    // A 4 mm lens: at 1.5 m the near field departs by (r/d)^2 < 2e-6.
    const spot = makeFixture({
      kind: 'spot',
      lensDiameterM: 0.004,
      beamAngleDeg: 60,
      output: { unit: 'peakCandela', value: cd },
    });
    const tilt = (tiltDeg * Math.PI) / 180;
    const e = illuminanceLux(buildFixture(spot), [0, 0, d], [Math.sin(tilt), 0, -Math.cos(tilt)], 20);
    expect(Math.abs(e / lux - 1)).toBeLessThan(5e-6);
  });

  it('of a bare bulb of 10 000 lm at 3 m over a plane falls off as the isotropic formula says', () => {
    const bulb = makeFixture({
      kind: 'bulb',
      diameterM: 0.01,
      positionM: [0, 3, 0],
      aimM: [0, 0, 0],
      output: { unit: 'lumens', value: 10000 },
    });
    const surfaces = buildFixture(bulb);
    // E(r) = (flux / 4 pi) h / (h^2 + r^2)^1.5.
    const expected = [88.4194, 75.4938, 50.9327, 31.261, 19.0986, 12.0418];
    expected.forEach((lux, r) => {
      expect(Math.abs(illuminanceLux(surfaces, [r, 0, 0], [0, 1, 0], 120) / lux - 1)).toBeLessThan(4e-4);
    });
  });
});
