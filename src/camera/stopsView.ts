import { rec709FromLab } from '../core/color/difference.ts';
import { encodeSrgb, LUMINANCE_WEIGHTS_REC2020 } from '../core/color/spaces.ts';
import type { Vec3 } from '../core/vec3.ts';
import type { DevelopParams } from './developParams.ts';
import { MIDDLE_OVER_SATURATION } from './exposure.ts';

/** One band of the stops view, for its key. Luminance from `fromStops` up to `toStops` relative to middle. */
export interface StopsBand {
  readonly label: string;
  readonly fromStops: number;
  readonly toStops: number;
  /** 8-bit sRGB. */
  readonly rgb: readonly [number, number, number];
}

/** Where the sensor clips, in stops over middle. */
export const CLIPPING_STOPS = -Math.log2(MIDDLE_OVER_SATURATION);

const LOWEST = -6;
const HIGHEST = 3;

/**
 * Colour of each band as lightness L*, chroma and hue angle. Lightness climbs by even steps, so the picture reads the
 * same without colour vision; umber stands for below middle, grey for middle, sea blue for above.
 */
const RAMP: readonly (readonly [number, number, number])[] = [
  [4, 6, 45],
  [12, 15, 45],
  [20, 23, 48],
  [28, 30, 51],
  [36, 34, 55],
  [44, 30, 60],
  [52, 20, 65],
  [60, 0, 0],
  [69, 20, 235],
  [78, 22, 235],
  [87, 14, 230],
];

const rgb8FromLch = ([lightness, chroma, hueDeg]: readonly [number, number, number]): [number, number, number] => {
  const hue = (hueDeg * Math.PI) / 180;
  const linear: Vec3 = rec709FromLab([lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)]);
  const code = (v: number): number => Math.round(255 * encodeSrgb(Math.min(1, Math.max(0, v))));
  return [code(linear[0]), code(linear[1]), code(linear[2])];
};

const labelOf = (stops: number): string => (stops === 0 ? 'middle' : stops > 0 ? `+${stops}` : `${stops}`);

/** All bands from darkest to lightest; the last is what clips. */
export const STOPS_BANDS: readonly StopsBand[] = [
  ...RAMP.map((lch, i) => {
    const centre = LOWEST - 1 + i;
    return {
      label: i === 0 ? `under ${LOWEST}` : labelOf(centre),
      fromStops: i === 0 ? Number.NEGATIVE_INFINITY : centre - 0.5,
      toStops: centre === HIGHEST ? CLIPPING_STOPS : centre + 0.5,
      rgb: rgb8FromLch(lch),
    };
  }),
  { label: 'clipped', fromStops: CLIPPING_STOPS, toStops: Number.POSITIVE_INFINITY, rgb: [255, 255, 255] },
];

const CLIPPED_BAND = STOPS_BANDS.length - 1;
/** Diagonal stripes over clipped parts, width of a dark and a light stripe together. */
const STRIPE_PX = 8;

/** Band of a luminance in stops from middle, as an index into {@link STOPS_BANDS}; never the clipped one. */
export const bandOfStops = (stopsFromMiddle: number): number =>
  Math.max(0, Math.min(CLIPPED_BAND - 1, Math.floor(stopsFromMiddle + 0.5) - LOWEST + 1));

/**
 * Paints a picture by luminance in stops relative to middle. Clipped means that any channel is full after white
 * balance.
 *
 * @param rgbNits n x 3, working RGB, cd/m2.
 * @param out n x 4, RGBA. Made when left out.
 * @param widthPx of the picture; when given, clipped parts carry diagonal stripes, so that no colour is needed to see
 *   them.
 */
export function stopsViewPixels(
  rgbNits: Float32Array,
  params: DevelopParams,
  out: Uint8ClampedArray<ArrayBuffer> = new Uint8ClampedArray((rgbNits.length / 3) * 4),
  widthPx?: number,
): Uint8ClampedArray<ArrayBuffer> {
  const m = params.sensorFromNits;
  const [wr, wg, wb] = LUMINANCE_WEIGHTS_REC2020;
  const perMiddle = 1 / params.middleLuminanceNits;
  for (let i = 0, o = 0, pixel = 0; i + 2 < rgbNits.length; i += 3, o += 4, pixel++) {
    const r = rgbNits[i];
    const g = rgbNits[i + 1];
    const b = rgbNits[i + 2];
    const clipped =
      m[0] * r + m[1] * g + m[2] * b >= 1 || m[3] * r + m[4] * g + m[5] * b >= 1 || m[6] * r + m[7] * g + m[8] * b >= 1;
    const light = (wr * r + wg * g + wb * b) * perMiddle;
    const index = clipped ? CLIPPED_BAND : light > 0 ? bandOfStops(Math.log2(light)) : 0;
    const band = STOPS_BANDS[index];
    const striped =
      clipped && widthPx !== undefined && ((pixel % widthPx) + Math.floor(pixel / widthPx)) % STRIPE_PX < STRIPE_PX / 2;
    out[o] = striped ? 0 : band.rgb[0];
    out[o + 1] = striped ? 0 : band.rgb[1];
    out[o + 2] = striped ? 0 : band.rgb[2];
    out[o + 3] = 255;
  }
  return out;
}
