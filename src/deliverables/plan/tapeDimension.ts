import { line, type Mark, type PointMm } from '../paper/marks.ts';
import { textWidthMm } from '../paper/typeset.ts';
import type { Box } from './boxes.ts';
import { clearedText } from './clearedText.ts';

const FIGURE_PT = 6.6;
const FIGURE_HEIGHT_MM = 2.3;
const GAP_MM = 0.8;
const TICK_MM = 1.1;
const STROKE = { widthMm: 0.13 };
/** Shorter than this on paper there is no line to speak of; the figure is in the list and on the edges. */
const SHORTEST_MM = 4;

export interface TapeDimension {
  readonly marks: readonly Mark[];
  /** Boxes that the figure and the line take, for what is placed later. */
  readonly taken: readonly Box[];
}

/**
 * A tape laid from the subject to `to`: a thin line with a slanting tick at its end (ISO 129-1, from memory), broken for its
 * figure, which reads from below or from the right. `isFree` picks the first free place for the figure along the line.
 */
export function drawTapeDimension(
  from: PointMm,
  to: PointMm,
  words: string,
  isFree: (box: Box) => boolean,
): TapeDimension {
  const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (lengthMm < SHORTEST_MM) return { marks: [], taken: [] };
  const along: PointMm = [(to[0] - from[0]) / lengthMm, (to[1] - from[1]) / lengthMm];
  const at = (mm: number): PointMm => [from[0] + along[0] * mm, from[1] + along[1] * mm];
  const halfMm = textWidthMm(words, FIGURE_PT) / 2 + GAP_MM;
  const breaks = lengthMm >= 2 * halfMm + 4;
  const places = breaks ? [0.66, 0.55, 0.76, 0.46, 0.84, 0.36, 0.26].map((t) => t * lengthMm) : [lengthMm / 2];
  const inLine = places.filter((mm) => mm - halfMm > 1 && mm + halfMm < lengthMm - 1);
  const free = inLine.find((mm) => isFree(figureBox(at(mm), along, halfMm))) ?? inLine[0];
  if (breaks && free !== undefined) {
    const middle = at(free);
    return {
      marks: [
        line([from, at(free - halfMm)], STROKE),
        line([at(free + halfMm), to], STROKE),
        tick(to, along),
        ...figure(middle, along, words),
      ],
      taken: [figureBox(middle, along, halfMm), ...lineBoxes(from, to)],
    };
  }
  // Too short to break: the figure stands beside the line.
  const beside: PointMm = [at(lengthMm / 2)[0] - along[1] * 2.4, at(lengthMm / 2)[1] + along[0] * 2.4];
  return {
    marks: [line([from, to], STROKE), tick(to, along), ...figure(beside, along, words)],
    taken: [figureBox(beside, along, halfMm), ...lineBoxes(from, to)],
  };
}

const figure = (centre: PointMm, along: PointMm, words: string): Mark[] =>
  clearedText(centre, words, FIGURE_PT, { turnDeg: readableTurnDeg(along) });

/** Counter-clockwise turn of the figure along the line, never upside down: over -90, up to 90. */
function readableTurnDeg([dx, dy]: PointMm): number {
  let deg = (Math.atan2(-dy, dx) * 180) / Math.PI;
  if (deg > 90.5) deg -= 180;
  if (deg <= -89.5) deg += 180;
  return deg;
}

function tick([x, y]: PointMm, [dx, dy]: PointMm): Mark {
  const [tx, ty] = [(dx - dy) * Math.SQRT1_2 * TICK_MM, (dx + dy) * Math.SQRT1_2 * TICK_MM];
  return line(
    [
      [x - tx, y - ty],
      [x + tx, y + ty],
    ],
    { widthMm: 0.25 },
  );
}

const figureBox = ([x, y]: PointMm, [dx, dy]: PointMm, halfMm: number): Box => {
  const w = Math.abs(dx) * halfMm + (Math.abs(dy) * FIGURE_HEIGHT_MM) / 2;
  const h = Math.abs(dy) * halfMm + (Math.abs(dx) * FIGURE_HEIGHT_MM) / 2;
  return { x0: x - w, x1: x + w, y0: y - h, y1: y + h };
};

/** Small boxes strung along a line, so that nothing is set across it. */
export function lineBoxes(a: PointMm, b: PointMm): Box[] {
  const count = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 2));
  return Array.from({ length: count + 1 }, (_, i): Box => {
    const t = i / count;
    const [x, y] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    return { x0: x - 0.5, x1: x + 0.5, y0: y - 0.5, y1: y + 0.5 };
  });
}
