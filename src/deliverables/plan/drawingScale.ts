import type { SheetPoint } from '../../scene/outline.ts';
import type { PointMm, Stroke } from '../paper/marks.ts';
import type { BoundsM, Dash, LineWeight } from './drawnItem.ts';
import type { LengthUnits } from './lengthWords.ts';

/** Reductions of technical drawings (ISO 5455:1979, from memory), with 1:25 as on set plans. */
export const DRAWING_SCALES = [2, 5, 10, 20, 25, 50, 100, 200, 500] as const;

/**
 * Reductions of drawings in feet and inches, as architects' scales have them (common practice, no source), with what they
 * are called: inches on paper to a foot.
 */
export const FEET_SCALES: Readonly<Record<number, string>> = {
  2: '6" = 1\'',
  4: '3" = 1\'',
  8: '1 1/2" = 1\'',
  12: '1" = 1\'',
  16: '3/4" = 1\'',
  24: '1/2" = 1\'',
  32: '3/8" = 1\'',
  48: '1/4" = 1\'',
  64: '3/16" = 1\'',
  96: '1/8" = 1\'',
  192: '1/16" = 1\'',
  384: '1/32" = 1\'',
};
const FEET_DENOMINATORS = Object.keys(FEET_SCALES)
  .map(Number)
  .sort((a, b) => a - b);

/** '1:20', or '1/2" = 1\'. */
export const scaleWords = (denominator: number, lengths: LengthUnits): string =>
  lengths === 'feet' && FEET_SCALES[denominator] !== undefined ? FEET_SCALES[denominator] : `1:${denominator}`;

export interface RoomMm {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** The largest usual scale at which each of these views fits the room: the denominator. */
export function chooseScale(views: readonly BoundsM[], room: RoomMm, lengths: LengthUnits = 'mm'): number {
  const scales: readonly number[] = lengths === 'feet' ? FEET_DENOMINATORS : DRAWING_SCALES;
  const fits = (denominator: number): boolean =>
    views.every(
      ({ min, max }) =>
        ((max[0] - min[0]) * 1000) / denominator <= room.widthMm &&
        ((max[1] - min[1]) * 1000) / denominator <= room.heightMm,
    );
  return scales.find(fits) ?? scales[scales.length - 1];
}

/** Places metres of the set on paper. */
export interface PaperView {
  readonly denominator: number;
  readonly toPaper: (p: SheetPoint) => PointMm;
  /** Paper length of a length on the set, mm. */
  readonly lengthMm: (lengthM: number) => number;
}

/** Centres the bounds in a window on the paper. */
export function paperView(bounds: BoundsM, denominator: number, cornerMm: PointMm, room: RoomMm): PaperView {
  const mmPerM = 1000 / denominator;
  const u0 = (bounds.min[0] + bounds.max[0]) / 2;
  const v0 = (bounds.min[1] + bounds.max[1]) / 2;
  const x0 = cornerMm[0] + room.widthMm / 2;
  const y0 = cornerMm[1] + room.heightMm / 2;
  return {
    denominator,
    toPaper: ([u, v]) => [x0 + (u - u0) * mmPerM, y0 + (v - v0) * mmPerM],
    lengthMm: (lengthM) => lengthM * mmPerM,
  };
}

/** Line widths in the steps of ISO 128-2 (0.13 to 0.7 mm, from memory). */
export const WEIGHT_MM: Readonly<Record<LineWeight, number>> = {
  hair: 0.1,
  thin: 0.18,
  medium: 0.25,
  heavy: 0.4,
  face: 0.9,
};

const DASHES_MM: Readonly<Record<Dash, readonly number[]>> = { dashed: [2, 1], chain: [5, 1, 0.6, 1] };

export const strokeOf = (weight: LineWeight, dash?: Dash): Stroke => ({
  widthMm: WEIGHT_MM[weight],
  ...(dash ? { dashMm: DASHES_MM[dash] } : {}),
});

/** A round length for the scale bar, at most `mostMm` long on paper: [length in metres, parts]. */
export function scaleBarParts(
  denominator: number,
  mostMm: number,
  lengths: LengthUnits = 'mm',
): { readonly lengthM: number; readonly parts: number } {
  const choices: readonly (readonly [number, number])[] = lengths === 'feet' ? FEET_BARS : METRE_BARS;
  const fitting = choices.filter(([lengthM]) => (lengthM * 1000) / denominator <= mostMm);
  const [lengthM, parts] = fitting[fitting.length - 1] ?? choices[0];
  return { lengthM, parts };
}

const METRE_BARS = [
  [0.1, 5],
  [0.2, 4],
  [0.5, 5],
  [1, 5],
  [2, 4],
  [5, 5],
  [10, 5],
  [20, 4],
] as const;
const M_PER_FOOT = 0.3048;
const FEET_BARS = [
  [0.5 * M_PER_FOOT, 6],
  [M_PER_FOOT, 4],
  [2 * M_PER_FOOT, 4],
  [4 * M_PER_FOOT, 4],
  [5 * M_PER_FOOT, 5],
  [10 * M_PER_FOOT, 5],
  [20 * M_PER_FOOT, 4],
  [50 * M_PER_FOOT, 5],
] as const;
