import { createRandom } from '../rng.ts';
import type { Vec3 } from '../vec3.ts';
import { deltaE2000, labFromRec709, rec709FromLab } from './difference.ts';
import { decodeSrgb, hexFromRec709 } from './spaces.ts';

export interface Swatch {
  /** CIE L*, a*, b*, D65. */
  readonly lab: Vec3;
  /** As it is shown, '#rrggbb'. */
  readonly hex: string;
  /** Part of the picture that is nearest to this colour, 0..1. */
  readonly share: number;
}

export const PALETTE_SIZE = 6;
const MOST_SAMPLES = 6000;
const ROUNDS = 16;
const SEED = 20;
/** Two colours nearer than this are one to the eye in a strip of colours. Common practice, no source. */
const SAME_DELTA_E = 4;

/**
 * The few colours that stand for a picture: k-means in CIE L*a*b*, begun by k-means++ with a fixed seed, so that a picture
 * always gives the same ones. Colours that cannot be told apart become one. Darkest first.
 * Source of the start: Arthur and Vassilvitskii, "k-means++: the advantages of careful seeding", SODA 2007.
 *
 * @param rgba 8-bit sRGB, row by row; clear pixels are passed over.
 */
export function paletteOf(rgba: Uint8ClampedArray, size = PALETTE_SIZE): readonly Swatch[] {
  const samples = sampleLab(rgba);
  if (samples.length === 0) return [];
  let centres = chooseCentres(samples, size);
  const nearest = new Int32Array(samples.length);
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    samples.forEach((lab, i) => {
      const best = nearestCentre(lab, centres).index;
      if (best !== nearest[i]) moved = true;
      nearest[i] = best;
    });
    centres = centres.map((centre, k) => meanOf(samples, nearest, k) ?? centre);
    if (!moved && round > 0) break;
  }
  const counts = centres.map((_, k) => nearest.reduce((count, at) => count + (at === k ? 1 : 0), 0));
  return mergeAlike(centres, counts)
    .map(({ lab, count }) => ({ lab, hex: hexOf(lab), share: count / samples.length }))
    .toSorted((a, b) => a.lab[0] - b.lab[0]);
}

/**
 * How far two pictures are apart in colour: for each colour of the one the CIEDE2000 difference to the nearest of the other,
 * weighed by area, both ways, and the mean of the two. 0 for the same colours.
 */
export function paletteDifference(a: readonly Swatch[], b: readonly Swatch[]): number {
  const oneWay = (from: readonly Swatch[], to: readonly Swatch[]): number =>
    from.reduce((sum, { lab, share }) => sum + share * Math.min(...to.map((other) => deltaE2000(lab, other.lab))), 0);
  return a.length === 0 || b.length === 0 ? Number.NaN : (oneWay(a, b) + oneWay(b, a)) / 2;
}

function sampleLab(rgba: Uint8ClampedArray): Vec3[] {
  const pixels = rgba.length / 4;
  const stride = Math.max(1, Math.floor(pixels / MOST_SAMPLES));
  const samples: Vec3[] = [];
  for (let i = Math.floor(stride / 2); i < pixels; i += stride) {
    const o = i * 4;
    if (rgba[o + 3] < 128) continue;
    samples.push(labFromRec709([decode(rgba[o]), decode(rgba[o + 1]), decode(rgba[o + 2])]));
  }
  return samples;
}

const DECODED = Float64Array.from({ length: 256 }, (_, code) => decodeSrgb(code / 255));
const decode = (code: number): number => DECODED[code];

function chooseCentres(samples: readonly Vec3[], size: number): Vec3[] {
  const random = createRandom(SEED);
  const centres = [samples[Math.floor(random() * samples.length)]];
  while (centres.length < Math.min(size, samples.length)) {
    const squares = samples.map((lab) => nearestCentre(lab, centres).squared);
    const total = squares.reduce((sum, square) => sum + square, 0);
    // Fewer colours than asked for.
    if (total === 0) break;
    let left = random() * total;
    const at = squares.findIndex((square) => {
      left -= square;
      return left < 0;
    });
    centres.push(samples[at < 0 ? samples.length - 1 : at]);
  }
  return centres;
}

function nearestCentre(lab: Vec3, centres: readonly Vec3[]): { readonly index: number; readonly squared: number } {
  let index = 0;
  let squared = Number.POSITIVE_INFINITY;
  centres.forEach((centre, k) => {
    const d = (lab[0] - centre[0]) ** 2 + (lab[1] - centre[1]) ** 2 + (lab[2] - centre[2]) ** 2;
    if (d < squared) {
      squared = d;
      index = k;
    }
  });
  return { index, squared };
}

function meanOf(samples: readonly Vec3[], nearest: Int32Array, k: number): Vec3 | null {
  const sum = [0, 0, 0];
  let count = 0;
  samples.forEach((lab, i) => {
    if (nearest[i] !== k) return;
    for (let c = 0; c < 3; c++) sum[c] += lab[c];
    count++;
  });
  return count === 0 ? null : [sum[0] / count, sum[1] / count, sum[2] / count];
}

interface Counted {
  readonly lab: Vec3;
  readonly count: number;
}

function mergeAlike(centres: readonly Vec3[], counts: readonly number[]): readonly Counted[] {
  const kept: Counted[] = [];
  centres.forEach((lab, k) => {
    const count = counts[k];
    if (count === 0) return;
    const at = kept.findIndex((other) => deltaE2000(other.lab, lab) < SAME_DELTA_E);
    if (at < 0) kept.push({ lab, count });
    else kept[at] = joined(kept[at], { lab, count });
  });
  return kept;
}

function joined(a: Counted, b: Counted): Counted {
  const count = a.count + b.count;
  const mean = (k: number): number => (a.lab[k] * a.count + b.lab[k] * b.count) / count;
  return { lab: [mean(0), mean(1), mean(2)], count };
}

const hexOf = (lab: Vec3): string => {
  const [r, g, b] = rec709FromLab(lab);
  return hexFromRec709([clamp01(r), clamp01(g), clamp01(b)]);
};
const clamp01 = (value: number): number => Math.min(1, Math.max(0, value));
