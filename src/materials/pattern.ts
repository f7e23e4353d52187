import { z } from 'zod';
import { radicalInverse } from '../core/lowDiscrepancy.ts';
import { pcgHash } from '../core/rng.ts';
import { PATTERN_PARAMETERS, PatternAxis, PatternKind, PatternPlane, patternMixAt } from './patterns/patternMixAt.ts';
import { scratchCoverage } from './patterns/scratches.ts';
import { speckleParameters } from './patterns/specks.ts';
import { type ReflectanceRgb, reflectanceRgbSchema } from './reflectance.ts';

const share = z.number().min(0).max(1);
const scaleM = z.number().min(0.0001).max(5);
const common = {
  seed: z.int().min(0).max(4294967295).default(1).describe('Another seed is another piece of the same stuff.'),
  secondRgb: reflectanceRgbSchema.describe('Colour that the pattern mixes into the reflectance of the finish.'),
};
const plane = z
  .enum(['level', 'upright', 'side', 'hanging'])
  .default('level')
  .describe(
    "How it lies in the piece's own frame: level (x, z), upright (x, y), side (z, y), or hanging: down a rise and over the floor of a sweep.",
  );
const along = z.enum(['x', 'y', 'z']).default('x').describe("Direction of the grain in the piece's own frame.");

/** A pattern on or in a surface: where, and by how much, a second colour is mixed into the first. Sizes are real ones. */
export const patternSchema = z.discriminatedUnion('type', [
  z
    .object({
      type: z.literal('woodGrain'),
      scaleM: scaleM.default(0.008).describe('Spacing of growth rings in the wood.'),
      ...common,
      along,
      waviness: share.default(0.35),
      fibre: share.default(0.3).describe('Share of the fine fibres against the rings.'),
    })
    .describe('Solid wood cut from one trunk: rings run on over the edges.'),
  z
    .object({
      type: z.literal('stone'),
      scaleM: scaleM.default(0.12).describe('Spacing of the broad veins.'),
      ...common,
      veinWidth: share.default(0.3),
      cloud: share.default(0.25).describe('Soft clouding between the veins.'),
    })
    .describe('Veined stone; the second colour is that of the veins.'),
  z
    .object({
      type: z.literal('terrazzo'),
      scaleM: scaleM.default(0.016).describe('Spacing of the large chips.'),
      ...common,
      chips: share.default(0.55).describe('How thickly chips lie in the binder.'),
      variation: share.default(0.5).describe('How much the chips differ in tone.'),
    })
    .describe('Chips of the second colour in a binder.'),
  z
    .object({
      type: z.literal('linen'),
      scaleM: z.number().min(0.0001).max(0.02).default(0.0008).describe('Pitch of the threads.'),
      ...common,
      plane,
      slub: share.default(0.5).describe('Unevenness of the threads.'),
    })
    .describe('Plain weave; the second colour lies between and along the threads.'),
  z
    .object({
      type: z.literal('leather'),
      scaleM: z.number().min(0.0002).max(0.05).default(0.002).describe('Size of a pebble.'),
      ...common,
      crease: share.default(0.35).describe('Width of the creases.'),
    })
    .describe('Pebbled leather or leatherette; the second colour lies in the creases.'),
  z
    .object({
      type: z.literal('tiles'),
      scaleM: scaleM.default(0.1).describe('Height of a tile, joint to joint.'),
      ...common,
      plane,
      jointM: z.number().min(0.0002).max(0.05).default(0.003),
      lengthOverHeight: z.number().min(0.2).max(8).default(1),
      bond: z.number().min(0).max(0.5).default(0).describe('Set-off of every other row, in tiles: 0.5 is half bond.'),
      variation: share.default(0.1).describe('How much the tiles differ in tone.'),
    })
    .describe('Tiles or bricks; the second colour is that of the joints.'),
  z
    .object({
      type: z.literal('planks'),
      scaleM: scaleM.default(0.12).describe('Width of a board.'),
      ...common,
      plane,
      lengthM: z.number().min(0.02).max(20).default(1.2),
      gapM: z.number().min(0.0002).max(0.03).default(0.0015),
      variation: share.default(0.5).describe('How much the boards differ in tone.'),
      grain: share.default(0.5),
    })
    .describe('Boards side by side; the second colour fills the gaps and the grain.'),
  z
    .object({
      type: z.literal('plaster'),
      scaleM: scaleM.default(0.15).describe('Size of the blotches.'),
      ...common,
      contrast: share.default(0.4),
    })
    .describe('Soft blotches: plaster, paper that has lived, painted canvas, concrete.'),
  z
    .object({
      type: z.literal('speckle'),
      scaleM: scaleM.default(0.003).describe('Spacing of the coarse specks.'),
      ...common,
      share: share.default(0.06).describe('Share of the surface that specks cover.'),
    })
    .describe('Specks of the second colour.'),
  z
    .object({
      type: z.literal('scratches'),
      scaleM: scaleM.default(0.03).describe('Length of the long ones, about.'),
      ...common,
      widthM: z.number().min(0.000005).max(0.002).default(0.00006),
      density: share.default(0.7),
    })
    .describe('Fine straight lines in all directions.'),
  z
    .object({
      type: z.literal('brushed'),
      scaleM: z.number().min(0.00002).max(0.01).default(0.0004).describe('Spacing of the streaks.'),
      ...common,
      along,
      unevenness: share.default(0.4),
    })
    .describe('Fine parallel streaks: brushed metal, combed paint.'),
]);
export type Pattern = z.infer<typeof patternSchema>;
export type PatternType = Pattern['type'];

/** A pattern as numbers alone, for a kernel: `params` goes into a flat array, `patternMixAt(kind, ...)` reads it there. */
export interface PatternNumbers {
  readonly kind: number;
  /** `PATTERN_PARAMETERS` numbers; each keeps its meaning when stored in 32-bit floats. */
  readonly params: readonly number[];
  readonly secondRgb: ReflectanceRgb;
}

/** Pure and cheap; equal patterns give equal numbers. */
export function patternNumbers(pattern: Pattern): PatternNumbers {
  const own = ownParameters(pattern);
  // 24 bits of the seed: a 32-bit float holds them exactly.
  const params = [1 / pattern.scaleM, pcgHash(pattern.seed) >>> 8, orientationOf(pattern), ...own];
  while (params.length < PATTERN_PARAMETERS) params.push(0);
  return { kind: PatternKind[pattern.type], params, secondRgb: pattern.secondRgb };
}

function orientationOf(pattern: Pattern): number {
  if ('plane' in pattern) return PatternPlane[pattern.plane];
  return 'along' in pattern ? PatternAxis[pattern.along] : 0;
}

function ownParameters(pattern: Pattern): readonly number[] {
  switch (pattern.type) {
    case 'woodGrain':
      return [pattern.waviness, pattern.fibre];
    case 'stone':
      return [pattern.veinWidth, pattern.cloud];
    case 'terrazzo':
      return [pattern.chips, pattern.variation];
    case 'linen':
      return [pattern.slub];
    case 'leather':
      return [pattern.crease];
    case 'tiles':
      return [pattern.jointM / pattern.scaleM, pattern.lengthOverHeight, pattern.bond, pattern.variation];
    case 'planks':
      return [pattern.gapM / pattern.scaleM, pattern.lengthM / pattern.scaleM, pattern.variation, pattern.grain];
    case 'plaster':
      return [pattern.contrast];
    case 'speckle':
      return speckleParameters(pattern.share);
    case 'scratches':
      return [pattern.widthM / 2, pattern.density];
    case 'brushed':
      return [pattern.unevenness];
  }
}

/**
 * Share of the second colour at a point, 0..1. For single points; a kernel keeps the numbers and calls `patternMixAt`.
 * @param x, y, z metres in the piece's own frame.
 */
export function patternMix(pattern: Pattern, x: number, y: number, z: number): number {
  const { kind, params } = patternNumbers(pattern);
  return patternMixAt(kind, Float64Array.from(params), 0, x, y, z);
}

const MEAN_POINTS = 4096;
/** Side of the block that the mean is taken over, in scales of the pattern. */
const MEAN_SCALES = 60;
const means = new Map<string, number>();

/**
 * Mean share of the second colour over a large piece of the stuff, 0..1: specks and scratches in closed form, all others by
 * 4096 evenly spread points, good to about 0.01. Kept per pattern.
 */
export function meanPatternMix(pattern: Pattern): number {
  if (pattern.type === 'speckle') return pattern.share;
  if (pattern.type === 'scratches') return scratchCoverage(1 / pattern.scaleM, pattern.widthM / 2, pattern.density);
  const { kind, params } = patternNumbers(pattern);
  const key = `${kind} ${params.join(' ')}`;
  const known = means.get(key);
  if (known !== undefined) return known;
  const numbers = Float64Array.from(params);
  const sideM = MEAN_SCALES * pattern.scaleM * (pattern.type === 'planks' ? pattern.lengthM / pattern.scaleM : 1);
  let sum = 0;
  for (let i = 1; i <= MEAN_POINTS; i++) {
    const [x, y, z] = [2, 3, 5].map((base) => (radicalInverse(base, i) - 0.5) * sideM);
    sum += patternMixAt(kind, numbers, 0, x, y, z);
  }
  const mean = sum / MEAN_POINTS;
  means.set(key, mean);
  return mean;
}
