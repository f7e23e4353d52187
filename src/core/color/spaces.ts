import { applyMatrix3, invertMatrix3, type Matrix3, multiplyMatrix3 } from '../matrix3.ts';
import type { Vec3 } from '../vec3.ts';

/** CIE 1931 chromaticity. */
export type Xy = readonly [number, number];

/** D65 as IEC 61966-2-1, ITU-R BT.709 and BT.2020 round it. */
export const D65_XY: Xy = [0.3127, 0.329];

/** XYZ of a chromaticity at luminance `luminance` (1 when left out). */
export const xyzFromXy = (xy: Xy, luminance = 1): Vec3 => [
  (luminance * xy[0]) / xy[1],
  luminance,
  (luminance * (1 - xy[0] - xy[1])) / xy[1],
];

/** Chromaticity of XYZ; D65 for black, which has none. */
export const xyFromXyz = (xyz: Vec3): Xy => {
  const sum = xyz[0] + xyz[1] + xyz[2];
  return sum > 0 ? [xyz[0] / sum, xyz[1] / sum] : D65_XY;
};

/**
 * Matrix from linear RGB to XYZ for three primaries and a white: RGB (1,1,1) is the white at Y = 1.
 * Source: SMPTE RP 177-1993, derivation of basic television colour equations.
 */
export function xyzMatrixFromPrimaries(red: Xy, green: Xy, blue: Xy, white: Xy): Matrix3 {
  const r = xyzFromXy(red);
  const g = xyzFromXy(green);
  const b = xyzFromXy(blue);
  const columns: Matrix3 = [r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]];
  const s = applyMatrix3(invertMatrix3(columns), xyzFromXy(white));
  return [
    r[0] * s[0],
    g[0] * s[1],
    b[0] * s[2],
    r[1] * s[0],
    g[1] * s[1],
    b[1] * s[2],
    r[2] * s[0],
    g[2] * s[1],
    b[2] * s[2],
  ];
}

/** Primaries of ITU-R BT.709-6, item 1.3 (also sRGB). */
export const XYZ_FROM_REC709 = xyzMatrixFromPrimaries([0.64, 0.33], [0.3, 0.6], [0.15, 0.06], D65_XY);
export const REC709_FROM_XYZ = invertMatrix3(XYZ_FROM_REC709);
/** Primaries of ITU-R BT.2020-2, table 3. */
export const XYZ_FROM_REC2020 = xyzMatrixFromPrimaries([0.708, 0.292], [0.17, 0.797], [0.131, 0.046], D65_XY);
export const REC2020_FROM_XYZ = invertMatrix3(XYZ_FROM_REC2020);

export const REC2020_FROM_REC709 = multiplyMatrix3(REC2020_FROM_XYZ, XYZ_FROM_REC709);
export const REC709_FROM_REC2020 = multiplyMatrix3(REC709_FROM_XYZ, XYZ_FROM_REC2020);

/** Share of each working channel in luminance; they sum to 1, so (L, L, L) has luminance L. */
export const LUMINANCE_WEIGHTS_REC2020: Vec3 = [XYZ_FROM_REC2020[3], XYZ_FROM_REC2020[4], XYZ_FROM_REC2020[5]];
export const LUMINANCE_WEIGHTS_REC709: Vec3 = [XYZ_FROM_REC709[3], XYZ_FROM_REC709[4], XYZ_FROM_REC709[5]];

/** Working colour (linear Rec. 2020) of linear Rec. 709; what records hold becomes what is traced. */
export const rec2020FromRec709 = (rgb: Vec3): Vec3 => applyMatrix3(REC2020_FROM_REC709, rgb);
/** Linear Rec. 709 of a working colour; negative where the colour lies outside that gamut. */
export const rec709FromRec2020 = (rgb: Vec3): Vec3 => applyMatrix3(REC709_FROM_REC2020, rgb);

/** Luminance of a working colour, in its own unit (cd/m2 for radiance). */
export const luminanceFromRec2020 = (rgb: Vec3): number =>
  LUMINANCE_WEIGHTS_REC2020[0] * rgb[0] + LUMINANCE_WEIGHTS_REC2020[1] * rgb[1] + LUMINANCE_WEIGHTS_REC2020[2] * rgb[2];

/** sRGB transfer of one linear value in 0..1 (IEC 61966-2-1:1999, 5.2); odd about zero. */
export const encodeSrgb = (linear: number): number => {
  const v = Math.abs(linear);
  const encoded = v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055;
  return linear < 0 ? -encoded : encoded;
};

/** Inverse of {@link encodeSrgb}. */
export const decodeSrgb = (encoded: number): number => {
  const v = Math.abs(encoded);
  const linear = v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  return encoded < 0 ? -linear : linear;
};

/** '#rrggbb' of linear Rec. 709, clipped to 0..1: for swatches in views. */
export const hexFromRec709 = (rgb: Vec3): string =>
  `#${rgb
    .map((v) =>
      Math.round(encodeSrgb(Math.min(1, Math.max(0, v))) * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
