import { describe, expect, it } from 'vitest';
import {
  blackBodyEfficacyLmPerW,
  cctFromXy,
  kelvinAfterShift,
  miredShift,
  rgbFromCct,
  uv1960FromXy,
  xyFromCct,
  xyFromDaylightCct,
  xyFromUv1960,
  xyzFromBlackBody,
} from '../../../src/core/color/source.ts';
import {
  luminanceFromRec2020,
  REC709_FROM_XYZ,
  rec709FromRec2020,
  xyFromXyz,
  xyzFromXy,
} from '../../../src/core/color/spaces.ts';
import { applyMatrix3 } from '../../../src/core/matrix3.ts';
import { miredFromKelvin } from '../../../src/core/units.ts';

describe('Planckian sources', () => {
  // Planck's law over the CIE 1931 observer at 1 nm, 360-830 nm, computed independently; tolerance 2e-5.
  // Columns: K, x, y, u, v (CIE 1960), mired, linear Rec. 709 red and blue over green.
  it.each([
    [2700, 0.45986, 0.4106, 0.2625, 0.35157, 370.3704, 2.4077, 0.2387],
    [3200, 0.42336, 0.39895, 0.24399, 0.34488, 312.5, 1.9395, 0.3763],
    [4300, 0.36811, 0.36869, 0.22016, 0.33076, 232.5581, 1.4312, 0.6464],
    [5600, 0.3302, 0.33908, 0.2061, 0.31746, 178.5714, 1.164, 0.9061],
    [6500, 0.31353, 0.32363, 0.20045, 0.31036, 153.8462, 1.0606, 1.0525],
  ])('puts %i K at x %f, y %f', (cctK, x, y, u, v, mired, red, blue) => {
    const xy = xyFromCct(cctK);
    const uv = uv1960FromXy(xy);
    const [r, g, b] = applyMatrix3(REC709_FROM_XYZ, xyzFromXy(xy));
    expect(Math.abs(xy[0] - x)).toBeLessThan(2e-5);
    expect(Math.abs(xy[1] - y)).toBeLessThan(2e-5);
    expect(Math.abs(uv[0] - u)).toBeLessThan(2e-5);
    expect(Math.abs(uv[1] - v)).toBeLessThan(2e-5);
    expect(miredFromKelvin(cctK)).toBeCloseTo(mired, 4);
    expect(r / g).toBeCloseTo(red, 3);
    expect(b / g).toBeCloseTo(blue, 3);
  });

  // colour-science (BSD-3), its test of the Planckian method of uv from temperature; c2 and step differ slightly.
  it.each([
    [4000, 0.22510967, 0.334387367],
    [7000, 0.198126929, 0.307025981],
  ])('agrees with a second implementation at %i K: u %f, v %f', (cctK, u, v) => {
    const uv = uv1960FromXy(xyFromCct(cctK));
    expect(Math.abs(uv[0] - u)).toBeLessThan(2e-5);
    expect(Math.abs(uv[1] - v)).toBeLessThan(2e-5);
  });

  it('makes illuminant A, 2848 K with c2 = 1.435e-2, at 0.44758, 0.40745 (CIE 15)', () => {
    const [x, y] = xyFromXyz(xyzFromBlackBody(2848, 1.435e-2));
    expect(Math.abs(x - 0.44758)).toBeLessThan(2e-5);
    expect(Math.abs(y - 0.40745)).toBeLessThan(2e-5);
  });

  it('puts D65 (0.3127, 0.3290) at 6504 K, duv +0.0032 (ANSI C78.377 sign, from memory)', () => {
    const [x, y] = xyFromCct(6504, 0.0032);
    expect(Math.abs(x - 0.3127)).toBeLessThan(1e-4);
    expect(Math.abs(y - 0.329)).toBeLessThan(1e-4);
  });

  it.each([2700, 4300, 6500])('moves %i K by exactly duv 0.01 in CIE 1960 uv, toward green', (cctK) => {
    const on = uv1960FromXy(xyFromCct(cctK));
    const off = uv1960FromXy(xyFromCct(cctK, 0.01));
    expect(Math.hypot(off[0] - on[0], off[1] - on[1])).toBeCloseTo(0.01, 10);
    expect(off[1]).toBeGreaterThan(on[1]);
    const [r, g, b] = rgbFromCct(cctK, 0.01);
    const [r0, g0, b0] = rgbFromCct(cctK);
    expect((2 * g) / (r + b)).toBeGreaterThan((2 * g0) / (r0 + b0));
  });

  it('goes there and back between xy and CIE 1960 uv', () => {
    const xy = xyFromUv1960(uv1960FromXy([0.37, 0.36]));
    expect(xy[0]).toBeCloseTo(0.37, 12);
    expect(xy[1]).toBeCloseTo(0.36, 12);
  });

  it('gives every source luminance 1 and no negative channel, also 1500 K pushed 0.03 green', () => {
    for (const cctK of [1500, 2700, 3200, 5600, 20000]) {
      for (const duv of [-0.03, -0.005, 0, 0.005, 0.03]) {
        const rgb = rgbFromCct(cctK, duv);
        expect(luminanceFromRec2020(rgb)).toBeCloseTo(1, 12);
        expect(Math.min(...rgb)).toBeGreaterThanOrEqual(0);
      }
    }
  });

  it('shows 3200 K in linear Rec. 709 as 1.9395 : 1 : 0.3763 through the working space', () => {
    const [r, g, b] = rec709FromRec2020(rgbFromCct(3200));
    expect(r / g).toBeCloseTo(1.9395, 3);
    expect(b / g).toBeCloseTo(0.3763, 3);
  });
});

// Planck's law over V(lambda) against sigma T^4, computed independently.
describe('luminous efficacy of a black body', () => {
  it.each([
    [2700, 12.356],
    [2856, 16.446],
    [3200, 27.087],
    [5600, 90.367],
    [6500, 95.363],
  ])('at %i K is %f lm/W', (temperatureK, lmPerW) => {
    expect(Math.abs(blackBodyEfficacyLmPerW(temperatureK) / lmPerW - 1)).toBeLessThan(1e-4);
  });
});

describe('CIE daylight', () => {
  // colour-science (BSD-3), test of xy from CIE daylight temperature: CIE 15, Wyszecki & Stiles p. 145.
  it.each([
    [4000, 0.382343625, 0.383766261],
    [7000, 0.305357431, 0.321646345],
    [25000, 0.24985367, 0.25479946],
  ])('puts %i K at x %f, y %f', (cctK, x, y) => {
    const xy = xyFromDaylightCct(cctK);
    expect(Math.abs(xy[0] - x)).toBeLessThan(1e-6);
    expect(Math.abs(xy[1] - y)).toBeLessThan(1e-6);
  });
  // The same polynomial, computed independently.
  it.each([
    [5003, 0.345653, 0.358596],
    [5503, 0.33243, 0.347545],
    [5600, 0.330164, 0.345546],
    [6504, 0.312714, 0.329119],
  ])('puts D at %i K at x %f, y %f', (cctK, x, y) => {
    const xy = xyFromDaylightCct(cctK);
    expect(Math.abs(xy[0] - x)).toBeLessThan(1e-6);
    expect(Math.abs(xy[1] - y)).toBeLessThan(1e-6);
  });
  // Published chromaticities of the standard illuminants (CIE 15), K as c2 has it today: within 2e-4 of the polynomial.
  it.each([
    ['D50', 5003, 0.3457, 0.3585],
    ['D55', 5503, 0.33243, 0.34744],
    ['D65', 6504, 0.3127, 0.329],
    ['D75', 7504, 0.29903, 0.31488],
  ])('comes within 2e-4 of %s', (_name, cctK, x, y) => {
    const xy = xyFromDaylightCct(cctK);
    expect(Math.abs(xy[0] - x)).toBeLessThan(2e-4);
    expect(Math.abs(xy[1] - y)).toBeLessThan(2e-4);
  });
  it('holds the nearest end outside 4000 to 25000 K', () => {
    expect(xyFromDaylightCct(2000)).toEqual(xyFromDaylightCct(4000));
    expect(xyFromDaylightCct(90000)).toEqual(xyFromDaylightCct(25000));
  });
});

describe('mired and correlated colour temperature', () => {
  // Definition, M = 1e6/T.
  it.each([
    [3200, 5600, -133.9286],
    [3200, 5500, -130.6818],
    [2700, 3200, -57.8704],
    [4300, 5600, -53.9867],
    [6500, 5600, 24.7253],
  ])('needs a gel from %i to %i K of %f mired', (from, to, shift) => {
    expect(miredShift(from, to)).toBeCloseTo(shift, 4);
  });
  it.each([
    [3200, -134, 5602.241],
    [5600, 134, 3199.269],
  ])('turns %i K with %f mired into %f K', (from, shift, to) => {
    expect(kelvinAfterShift(from, shift)).toBeCloseTo(to, 3);
  });
  // C. S. McCamy, Color Res. Appl. 17, 142 (1992), from memory.
  it('reads D65 as 6505.08 K and illuminant A as 2857.29 K', () => {
    expect(cctFromXy([0.3127, 0.329])).toBeCloseTo(6505.08, 1);
    expect(cctFromXy([0.44757, 0.40745])).toBeCloseTo(2857.29, 1);
  });
});
