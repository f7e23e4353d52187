import { type Mark, outline, type PointMm, text } from '../paper/marks.ts';
import { MM_PER_PT } from '../paper/paperSize.ts';
import { textWidthMm } from '../paper/typeset.ts';

export interface ClearedLook {
  /** Counter-clockwise. */
  readonly turnDeg?: number;
  readonly grey?: number;
}

/** Height of capitals and figures of the papers' face over its size (Adobe's AFM file: 718 of 1000). */
const CAP_HEIGHT = 0.718;
const CLEAR_MM = 0.35;

/** A word or figure about its middle, with the lines under it taken away so that it can be read. */
export function clearedText(centre: PointMm, words: string, sizePt: number, look: ClearedLook = {}): Mark[] {
  const turnDeg = look.turnDeg ?? 0;
  const rad = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  const capMm = CAP_HEIGHT * sizePt * MM_PER_PT;
  const halfWidth = textWidthMm(words, sizePt) / 2 + CLEAR_MM;
  const halfHeight = capMm / 2 + CLEAR_MM;
  const at = (right: number, down: number): PointMm => [
    centre[0] + c * right + s * down,
    centre[1] - s * right + c * down,
  ];
  const ground: Mark = {
    ...outline(
      [at(-halfWidth, -halfHeight), at(halfWidth, -halfHeight), at(halfWidth, halfHeight), at(-halfWidth, halfHeight)],
      { widthMm: 0 },
      1,
    ),
    stroke: undefined,
  };
  return [ground, text(at(0, capMm / 2), words, sizePt, { anchor: 'middle', turnDeg, grey: look.grey ?? 0 })];
}
