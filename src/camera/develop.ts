import { encodeSrgb, LUMINANCE_WEIGHTS_REC709, REC709_FROM_REC2020 } from '../core/color/spaces.ts';
import { applyMatrix3, multiplyMatrix3 } from '../core/matrix3.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { DevelopParams } from './developParams.ts';
import { fitToRec709, fitToRec709Glsl, GAMUT_SOFT_START } from './gamut.ts';
import { applyToneCurve, applyToneCurveRgb, glslFloat, type ToneCurve, toneCurveGlsl } from './toneCurve.ts';

export * from './developParams.ts';
export * from './spotReadout.ts';
export * from './stopsView.ts';

/*
 * The one way from scene light to the screen, for the traced frame, the quick view and stills alike:
 * white balance, exposure (1 = the sensor clips), tone curve in the working space, fit to Rec. 709, sRGB.
 */

/** sRGB-encoded Rec. 709, 0..1, of one working colour in cd/m2. Exact; {@link developPixels} is its fast twin. */
export function developColour(rgbNits: Vec3, params: DevelopParams): Vec3 {
  const sensor = applyMatrix3(params.sensorFromNits, rgbNits);
  const shown = fitToRec709(applyMatrix3(REC709_FROM_REC2020, applyToneCurveRgb(sensor, params.curve)));
  return [encodeSrgb(shown[0]), encodeSrgb(shown[1]), encodeSrgb(shown[2])];
}

const CURVE_STEPS = 4096;
const ENCODE_STEPS = 16384;

/** 8-bit sRGB of a display-linear value at the middle of each step. */
const ENCODE_TABLE = Uint8Array.from({ length: ENCODE_STEPS + 1 }, (_, i) =>
  Math.round(255 * encodeSrgb(Math.min(1, (i + (i < ENCODE_STEPS ? 0.5 : 0)) / ENCODE_STEPS))),
);

let lastCurve: { readonly curve: ToneCurve; readonly table: Float32Array } | null = null;

function curveTable(curve: ToneCurve): Float32Array {
  if (lastCurve?.curve !== curve) {
    const table = Float32Array.from({ length: CURVE_STEPS + 2 }, (_, i) => applyToneCurve(i / CURVE_STEPS, curve));
    lastCurve = { curve, table };
  }
  return lastCurve.table;
}

/**
 * Develops a picture to 8-bit sRGB.
 *
 * @param rgbNits n x 3, working RGB, cd/m2.
 * @param out n x 4, RGBA; alpha is set to 255. Made when left out.
 * @returns `out`. Within one code of {@link developColour}; a pixel with a value that is no finite number shows black.
 */
export function developPixels(
  rgbNits: Float32Array,
  params: DevelopParams,
  out: Uint8ClampedArray<ArrayBuffer> = new Uint8ClampedArray((rgbNits.length / 3) * 4),
): Uint8ClampedArray<ArrayBuffer> {
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = params.sensorFromNits;
  const [d0, d1, d2, d3, d4, d5, d6, d7, d8] = REC709_FROM_REC2020;
  const [wr, wg, wb] = LUMINANCE_WEIGHTS_REC709;
  const table = curveTable(params.curve);
  for (let i = 0, o = 0; i + 2 < rgbNits.length; i += 3, o += 4) {
    const sr = rgbNits[i];
    const sg = rgbNits[i + 1];
    const sb = rgbNits[i + 2];
    // White balance and exposure.
    const r = Math.max(0, m0 * sr + m1 * sg + m2 * sb);
    const g = Math.max(0, m3 * sr + m4 * sg + m5 * sb);
    const b = Math.max(0, m6 * sr + m7 * sg + m8 * sb);

    // Tone curve on the largest and smallest channel.
    const high = Math.max(r, g, b);
    const low = Math.min(r, g, b);
    const shownLow = lookUp(table, low);
    const gain = high > low ? (lookUp(table, high) - shownLow) / (high - low) : 0;
    const tr = shownLow + (r - low) * gain;
    const tg = shownLow + (g - low) * gain;
    const tb = shownLow + (b - low) * gain;

    // Rec. 709, with what falls outside drawn in toward grey.
    let x = d0 * tr + d1 * tg + d2 * tb;
    let y = d3 * tr + d4 * tg + d5 * tb;
    let z = d6 * tr + d7 * tg + d8 * tb;
    const lum = wr * x + wg * y + wb * z;
    const least = Math.min(x, y, z);
    const most = Math.max(x, y, z);
    if (lum - least > GAMUT_SOFT_START * lum || most - lum > GAMUT_SOFT_START * (1 - lum)) {
      [x, y, z] = fitToRec709([x, y, z]);
    }
    out[o] = ENCODE_TABLE[(x * ENCODE_STEPS) | 0];
    out[o + 1] = ENCODE_TABLE[(y * ENCODE_STEPS) | 0];
    out[o + 2] = ENCODE_TABLE[(z * ENCODE_STEPS) | 0];
    out[o + 3] = 255;
  }
  return out;
}

/** The curve at x >= 0, straight between table entries. */
function lookUp(table: Float32Array, x: number): number {
  if (x >= 1) return 1;
  const position = x * CURVE_STEPS;
  const i = position | 0;
  const a = table[i];
  return a + (table[i + 1] - a) * (position - i);
}

/**
 * White balance and exposure alone: linear Rec. 709, 1 where the sensor clips, not clipped and without a curve.
 *
 * @param rgbNits n x 3, working RGB, cd/m2.
 * @returns n x 3, `out` or a new array.
 */
export function developLinear(
  rgbNits: Float32Array,
  params: DevelopParams,
  out: Float32Array<ArrayBuffer> = new Float32Array(rgbNits.length),
): Float32Array<ArrayBuffer> {
  const m = multiplyMatrix3(REC709_FROM_REC2020, params.sensorFromNits);
  for (let i = 0; i + 2 < rgbNits.length; i += 3) {
    const sr = rgbNits[i];
    const sg = rgbNits[i + 1];
    const sb = rgbNits[i + 2];
    out[i] = m[0] * sr + m[1] * sg + m[2] * sb;
    out[i + 1] = m[3] * sr + m[4] * sg + m[5] * sb;
    out[i + 2] = m[6] * sr + m[7] * sg + m[8] * sb;
  }
  return out;
}

/** {@link developLinear} as 8-bit sRGB, RGBA, channels clipped: the plain look of the sensor, white where it clips. */
export function developLinearPixels(
  rgbNits: Float32Array,
  params: DevelopParams,
  out: Uint8ClampedArray<ArrayBuffer> = new Uint8ClampedArray((rgbNits.length / 3) * 4),
): Uint8ClampedArray<ArrayBuffer> {
  const linear = developLinear(rgbNits, params);
  for (let i = 0, o = 0; i + 2 < linear.length; i += 3, o += 4) {
    for (let k = 0; k < 3; k++) {
      const v = linear[i + k];
      out[o + k] = ENCODE_TABLE[v > 0 ? (v < 1 ? v * ENCODE_STEPS : ENCODE_STEPS) | 0 : 0];
    }
    out[o + 3] = 255;
  }
  return out;
}

const glslMatrix = (m: readonly number[]): string =>
  `mat3(${[0, 3, 6, 1, 4, 7, 2, 5, 8].map((i) => glslFloat(m[i])).join(', ')})`;

/**
 * Twin of {@link developColour} for shaders: `vec3 keyglassDevelop(vec3 workingNits, mat3 sensorFromNits)` gives
 * sRGB-encoded Rec. 709; the curve and the gamut fit come with it. GLSL matrices are column by column, so transpose
 * `params.sensorFromNits` when setting the uniform.
 */
export const developGlsl = `${toneCurveGlsl}${fitToRec709Glsl}
vec3 keyglassEncodeSrgb(vec3 c) {
  vec3 curved = 1.055 * pow(max(c, vec3(0.0)), vec3(1.0 / 2.4)) - 0.055;
  return mix(curved, 12.92 * c, vec3(lessThanEqual(c, vec3(0.0031308))));
}
vec3 keyglassDevelop(vec3 workingNits, mat3 sensorFromNits) {
  vec3 shown = keyglassToneCurve(sensorFromNits * workingNits);
  return keyglassEncodeSrgb(keyglassFitToRec709(${glslMatrix(REC709_FROM_REC2020)} * shown));
}
`;
