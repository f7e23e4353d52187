/**
 * The scalar functions behind patterns. Everything is numbers: a kind and a run of eight parameters, so that a kernel can
 * read them from one flat array. `patternNumbers` in pattern.ts fills that run.
 */
import { brushedMix, leatherMix, linenMix, tilesMix } from './covering.ts';
import { scratchesMix } from './scratches.ts';
import { speckleMix } from './specks.ts';
import { plasterMix, stoneMix, terrazzoMix } from './stone.ts';
import { planksMix, woodGrainMix } from './wood.ts';

export const PatternKind = {
  none: 0,
  woodGrain: 1,
  stone: 2,
  terrazzo: 3,
  linen: 4,
  leather: 5,
  tiles: 6,
  planks: 7,
  plaster: 8,
  speckle: 9,
  scratches: 10,
  brushed: 11,
} as const;

/** Parameters of one pattern: cells per metre, seed, orientation, and five of its own. */
export const PATTERN_PARAMETERS = 8;

/** Planes of flat patterns. `hanging` unrolls a sweep: level on its floor, upright on its rise. */
export const PatternPlane = { level: 0, upright: 1, side: 2, hanging: 3 } as const;
export const PatternAxis = { x: 0, y: 1, z: 2 } as const;

/**
 * Share of the second colour, 0..1, at a point of the pattern's own frame.
 *
 * @param kind of `PatternKind`.
 * @param params holds `PATTERN_PARAMETERS` numbers from `offset` on.
 * @param x, y, z metres. Continuous in all three; the same numbers give the same mix everywhere.
 */
export function patternMixAt(
  kind: number,
  params: Float64Array,
  offset: number,
  x: number,
  y: number,
  z: number,
): number {
  const cells = params[offset];
  const seed = params[offset + 1];
  switch (kind) {
    case PatternKind.woodGrain:
      return woodGrainMix(params, offset, x * cells, y * cells, z * cells, seed);
    case PatternKind.stone:
      return stoneMix(x * cells, y * cells, z * cells, seed, params[offset + 3], params[offset + 4]);
    case PatternKind.terrazzo:
      return terrazzoMix(x * cells, y * cells, z * cells, seed, params[offset + 3], params[offset + 4]);
    case PatternKind.leather:
      return leatherMix(x * cells, y * cells, z * cells, seed, params[offset + 3]);
    case PatternKind.plaster:
      return plasterMix(x * cells, y * cells, z * cells, seed, params[offset + 3]);
    case PatternKind.speckle:
      return speckleMix(x * cells, y * cells, z * cells, seed, params, offset);
    case PatternKind.scratches:
      return scratchesMix(x, y, z, cells, seed, params[offset + 3], params[offset + 4]);
    case PatternKind.brushed:
      return brushedMix(params[offset + 2], x * cells, y * cells, z * cells, seed, params[offset + 3]);
    case PatternKind.linen:
    case PatternKind.tiles:
    case PatternKind.planks: {
      const plane = params[offset + 2];
      const u = (plane === 2 ? z : x) * cells;
      const v = (plane === 0 ? z : plane === 3 ? y - z : y) * cells;
      if (kind === PatternKind.linen) return linenMix(u, v, seed, params[offset + 3]);
      return kind === PatternKind.tiles ? tilesMix(u, v, seed, params, offset) : planksMix(u, v, seed, params, offset);
    }
    default:
      return 0;
  }
}
