import { describe, expect, it } from 'vitest';
import { adaptationMatrix, whiteBalanceMatrix } from '../../../src/core/color/adapt.ts';
import { rgbFromCct } from '../../../src/core/color/source.ts';
import { applyMatrix3 } from '../../../src/core/matrix3.ts';
import { scale, type Vec3 } from '../../../src/core/vec3.ts';

// White points and matrices as published by B. Lindbloom, "Chromatic adaptation" (from memory).
const D65: Vec3 = [0.95047, 1, 1.08883];
const D50: Vec3 = [0.96422, 1, 0.82521];
const A: Vec3 = [1.0985, 1, 0.35585];

describe('Bradford adaptation', () => {
  it.each([
    [
      'D65 to D50',
      D65,
      D50,
      [1.0478112, 0.0228866, -0.050127, 0.0295424, 0.9904844, -0.0170491, -0.0092345, 0.0150436, 0.7521316],
    ],
    [
      'A to D65',
      A,
      D65,
      [0.8446965, -0.1179225, 0.3948108, -0.1366303, 1.1041226, 0.1291718, 0.0798489, -0.1348999, 3.1924009],
    ],
  ])('gives the published matrix %s to the seventh digit', (_name, from, to, published) => {
    const m = adaptationMatrix(from, to);
    published.forEach((value, i) => {
      expect(Math.abs((m[i] ?? NaN) - value)).toBeLessThan(1.1e-7);
    });
    applyMatrix3(m, from).forEach((v, i) => {
      expect(v).toBeCloseTo(to[i] ?? NaN, 12);
    });
  });
});

describe('camera white balance', () => {
  it.each([1500, 2700, 3200, 4300, 5600, 6500, 20000])('makes a %i K source neutral at its own luminance', (cctK) => {
    applyMatrix3(whiteBalanceMatrix(cctK), scale(rgbFromCct(cctK), 250)).forEach((v) => {
      expect(v).toBeCloseTo(250, 9);
    });
  });
  it('shows tungsten warm on a camera set to 5600 K and daylight cold on one set to 3200 K', () => {
    const warm = applyMatrix3(whiteBalanceMatrix(5600), rgbFromCct(3200));
    const cold = applyMatrix3(whiteBalanceMatrix(3200), rgbFromCct(5600));
    expect(warm[0]).toBeGreaterThan(warm[1]);
    expect(warm[1]).toBeGreaterThan(warm[2]);
    expect(cold[2]).toBeGreaterThan(cold[1]);
    expect(cold[1]).toBeGreaterThan(cold[0]);
  });
});
