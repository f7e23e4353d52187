import { REC709_FROM_REC2020, REC2020_FROM_REC709 } from '../../core/color/spaces.ts';
import type { Matrix3 } from '../../core/matrix3.ts';
import { invariant } from '../../core/result.ts';

/** RGB picture: `rgb` is width x height x 3, row 0 at the top. The colour space is said where one is made. */
export interface RgbImage<Samples> {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rgb: Samples;
}

/** Linear Rec. 709 primaries, D65, (L, L, L) = L cd/m2: what PFM and EXR files hold unless they say otherwise. */
export type LinearRec709Image = RgbImage<Float32Array>;

/**
 * Working RGB (linear Rec. 2020, cd/m2) to linear Rec. 709, n x 3. Colours outside Rec. 709 keep their negative
 * channels, so nothing is lost on the way into a float file.
 */
export const rec709SamplesFromWorking = (workingRgb: Float32Array): Float32Array =>
  transformed(REC709_FROM_REC2020, workingRgb);

/** The way back: linear Rec. 709 to working RGB, n x 3. */
export const workingSamplesFromRec709 = (rgb: Float32Array): Float32Array => transformed(REC2020_FROM_REC709, rgb);

function transformed(m: Matrix3, rgb: Float32Array): Float32Array {
  const out = new Float32Array(rgb.length);
  for (let i = 0; i + 2 < rgb.length; i += 3) {
    const r = rgb[i];
    const g = rgb[i + 1];
    const b = rgb[i + 2];
    out[i] = m[0] * r + m[1] * g + m[2] * b;
    out[i + 1] = m[3] * r + m[4] * g + m[5] * b;
    out[i + 2] = m[6] * r + m[7] * g + m[8] * b;
  }
  return out;
}

/** Throws when the sample count does not match the size. */
export function checkRgbImage(image: RgbImage<{ readonly length: number }>): void {
  const { widthPx, heightPx, rgb } = image;
  invariant(
    Number.isInteger(widthPx) && Number.isInteger(heightPx) && widthPx > 0 && heightPx > 0,
    () => `image of ${widthPx} x ${heightPx}`,
  );
  invariant(rgb.length === widthPx * heightPx * 3, () => `${rgb.length} samples for ${widthPx} x ${heightPx} RGB`);
}
