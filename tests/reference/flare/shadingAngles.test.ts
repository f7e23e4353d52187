import { describe, expect, it } from 'vitest';
import { createFrameLight, frontElementPoints, measureLensLight } from '../../../src/analysis/index.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { bareInput, glowingQuad, quad } from '../../analysis/helpers/bareSet.ts';

/*
 * A flag whose lower edge stands h over the axis, l ahead of a front element of diameter D, shades a far source at
 * elevation a from atan((h - D/2)/l) on and wholly from atan((h + D/2)/l) on (plane geometry; figures computed).
 */
const DEGREES = Math.PI / 180;
const FAR_M = 400;

/** Part of the front element lit by a small source far off at an elevation, past a flag. */
function litShare(diameterM: number, heightM: number, aheadM: number, elevationDeg: number, flagged = true): number {
  const a = elevationDeg * DEGREES;
  const centre: Vec3 = [0, FAR_M * Math.sin(a), -FAR_M * Math.cos(a)];
  // 1 m square, facing the lens at the origin: up is (0, cos a, sin a).
  const up: Vec3 = [0, Math.cos(a), Math.sin(a)];
  const source = glowingQuad([-0.5, centre[1] - up[1] / 2, centre[2] - up[2] / 2], [1, 0, 0], up, 1e6);
  const flag: OpticalSurface = quad('flag', [-2, heightM, -aheadM], [4, 0, 0], [0, 4, 0], {
    finish: { type: 'black' },
  });
  const input = bareInput(flagged ? [source, flag] : [source], [], {
    positionM: [0, 0, 0],
    aimM: [0, 0, -1],
    focalLengthMm: 100,
  });
  const light = createFrameLight(input);
  return measureLensLight(light, input.view, light.sources, frontElementPoints(input.view, diameterM, 2000)).share;
}

describe('shading by a flag or hood edge', () => {
  it.each([
    [0.06, 0.054, 0.1, 13.4957, 40.0303],
    [0.06, 0.09, 0.3, 11.3099, 21.8014],
  ])('D %f m, h %f m, l %f m: starts at %f degrees and is complete at %f', (diameterM, heightM, aheadM, start, end) => {
    expect(Math.atan((heightM - diameterM / 2) / aheadM) / DEGREES).toBeCloseTo(start, 3);
    expect(Math.atan((heightM + diameterM / 2) / aheadM) / DEGREES).toBeCloseTo(end, 3);
    expect(litShare(diameterM, heightM, aheadM, start - 0.2)).toBe(1);
    expect(litShare(diameterM, heightM, aheadM, start + 1.5)).toBeLessThan(1);
    expect(litShare(diameterM, heightM, aheadM, end - 1.5)).toBeGreaterThan(0);
    expect(litShare(diameterM, heightM, aheadM, end + 0.2)).toBe(0);
  });

  it('shades half of the element at atan(h / l)', () => {
    // By symmetry: at 28.369 degrees the shadow edge crosses the middle of the disc (h 54, l 100 mm).
    expect(litShare(0.06, 0.054, 0.1, Math.atan(0.54) / DEGREES)).toBeCloseTo(0.5, 2);
  });

  it('shades a segment of a circle in between', () => {
    // Edge's shadow at y = h - l tan(a); lit part lies below it: with y = R/2, 1 - (acos(1/2) - 1/2 sin(acos 1/2)) / pi.
    const elevation = Math.atan((0.054 - 0.015) / 0.1) / DEGREES;
    const half = Math.acos(0.5);
    expect(litShare(0.06, 0.054, 0.1, elevation)).toBeCloseTo(1 - (half - 0.5 * Math.sin(half)) / Math.PI, 2);
  });

  it('lights the whole element with no flag', () => {
    expect(litShare(0.06, 0.054, 0.1, 30, false)).toBe(1);
  });
});
