import Color from 'colorjs.io';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decodeSrgb,
  encodeSrgb,
  hexFromRec709,
  LUMINANCE_WEIGHTS_REC2020,
  luminanceFromRec2020,
  REC709_FROM_XYZ,
  rec709FromRec2020,
  rec2020FromRec709,
  XYZ_FROM_REC709,
  XYZ_FROM_REC2020,
} from '../../../src/core/color/spaces.ts';
import { applyMatrix3, IDENTITY_3, invertMatrix3, multiplyMatrix3 } from '../../../src/core/matrix3.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';

const channel = fc.double({ min: 0, max: 100, noNaN: true });

describe('colour spaces', () => {
  // IEC 61966-2-1:1999 / ITU-R BT.709 primaries and D65, seven digits as usually printed.
  const rec709ToXyz = [
    0.4123908, 0.3575843, 0.1804808, 0.212639, 0.7151687, 0.0721923, 0.0193308, 0.1191948, 0.9505322,
  ];
  const xyzToRec709 = [
    3.2409699, -1.5373832, -0.4986108, -0.9692436, 1.8759675, 0.0415551, 0.0556301, -0.203977, 1.0569715,
  ];
  it('derives the published Rec. 709 matrices to half a unit of the seventh digit', () => {
    rec709ToXyz.forEach((value, i) => {
      expect(Math.abs((XYZ_FROM_REC709[i] ?? NaN) - value)).toBeLessThan(6e-8);
    });
    xyzToRec709.forEach((value, i) => {
      expect(Math.abs((REC709_FROM_XYZ[i] ?? NaN) - value)).toBeLessThan(6e-8);
    });
  });

  it('weighs Rec. 2020 luminance 0.2627, 0.6780, 0.0593 (ITU-R BT.2020-2, table 4)', () => {
    expect(LUMINANCE_WEIGHTS_REC2020[0]).toBeCloseTo(0.2627, 4);
    expect(LUMINANCE_WEIGHTS_REC2020[1]).toBeCloseTo(0.678, 4);
    expect(LUMINANCE_WEIGHTS_REC2020[2]).toBeCloseTo(0.0593, 4);
    expect(luminanceFromRec2020([57.3, 57.3, 57.3])).toBeCloseTo(57.3, 10);
  });

  it('agrees with colorjs.io from Rec. 709 to Rec. 2020 to 1e-6', () => {
    const colours: readonly Vec3[] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0.18, 0.4, 0.05],
    ];
    for (const rgb of colours) {
      const [r, g, b] = new Color('srgb-linear', [...rgb]).to('rec2020-linear').coords;
      const ours = rec2020FromRec709(rgb);
      expect(Math.abs(ours[0] - (r ?? NaN))).toBeLessThan(1e-6);
      expect(Math.abs(ours[1] - (g ?? NaN))).toBeLessThan(1e-6);
      expect(Math.abs(ours[2] - (b ?? NaN))).toBeLessThan(1e-6);
    }
  });

  it('keeps luminance and returns to the same Rec. 709 value', () => {
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        const rgb: Vec3 = [r, g, b];
        const working = rec2020FromRec709(rgb);
        const back = rec709FromRec2020(working);
        const y709 = applyMatrix3(XYZ_FROM_REC709, rgb)[1];
        expect(luminanceFromRec2020(working)).toBeCloseTo(y709, 9);
        back.forEach((v, i) => {
          expect(v).toBeCloseTo(rgb[i] ?? NaN, 9);
        });
      }),
      { seed: 1 },
    );
  });

  it('inverts the Rec. 2020 matrix to the identity within 1e-12', () => {
    const product = multiplyMatrix3(invertMatrix3(XYZ_FROM_REC2020), XYZ_FROM_REC2020);
    product.forEach((v, i) => {
      expect(v).toBeCloseTo(IDENTITY_3[i] ?? NaN, 12);
    });
  });

  // IEC 61966-2-1:1999, 5.2.
  it.each([
    [0.18, 0.4613561],
    [0.5, 0.735357],
  ])('encodes linear %f as sRGB %f', (linear, encoded) => {
    expect(encodeSrgb(linear)).toBeCloseTo(encoded, 6);
  });
  it.each([
    [118, 0.1811642],
    [128, 0.2158605],
    [188, 0.5028865],
  ])('decodes sRGB code %i as linear %f', (code, linear) => {
    expect(decodeSrgb(code / 255)).toBeCloseTo(linear, 6);
  });
  it('round-trips the sRGB transfer, negative values too', () => {
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (v) => {
        // The standard's two pieces meet to about 1e-8 only.
        expect(Math.abs(decodeSrgb(encodeSrgb(v)) - v)).toBeLessThan(1e-7);
      }),
      { seed: 2 },
    );
  });
  it('writes 18 % grey as #767676', () => {
    // 0.4613561 x 255 = 117.65
    expect(hexFromRec709([0.18, 0.18, 0.18])).toBe('#767676');
  });
});
