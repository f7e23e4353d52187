import type { ArcDimension, Dimension, LinearDimension } from './dimensions.ts';
import type { SheetPoint } from './projection.ts';
import type { PxPoint } from './sheetPx.ts';

/** The dimension line stands this far off what it measures. */
const STAND_OFF_PX = 22;
const EXTENSION_GAP_PX = 5;
const EXTENSION_PAST_PX = 5;
/** Half of the slanting stroke at each end. */
const TICK_PX = 4;
const FIGURE_OFF_ARC_PX = 9;
/** Width of a figure's letters, and the free line on each side that a figure on a line needs. */
const LETTER_PX = 6.7;
const FIGURE_GAP_PX = 5;
const LEAST_LINE_PX = 7;
const FIGURE_OFF_LINE_PX = 11;

/** A dimension as it is set on screen: SVG paths and the place of its figure, in pixels. */
export interface DimensionLayout {
  readonly extensionPath: string;
  readonly linePath: string;
  /** Ends of the dimension line. */
  readonly reach: readonly [PxPoint, PxPoint];
  readonly figureAt: PxPoint;
  readonly turnDeg: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

export function layOutDimension(dimension: Dimension, px: (p: SheetPoint) => PxPoint, pxPerM: number): DimensionLayout {
  return dimension.kind === 'linear' ? layOutLinear(dimension, px, pxPerM) : layOutArc(dimension, px, pxPerM);
}

function layOutLinear(dimension: LinearDimension, px: (p: SheetPoint) => PxPoint, pxPerM: number): DimensionLayout {
  const from = px(dimension.from);
  const to = px(dimension.to);
  const lengthPx = Math.max(Math.hypot(to[0] - from[0], to[1] - from[1]), 1e-6);
  const along: PxPoint = [(to[0] - from[0]) / lengthPx, (to[1] - from[1]) / lengthPx];
  const off = (p: PxPoint, byPx: number): PxPoint => [
    p[0] + dimension.awayFrom[0] * byPx,
    p[1] + dimension.awayFrom[1] * byPx,
  ];
  const standOffPx = dimension.clearM * pxPerM + STAND_OFF_PX;
  const [start, end] = [off(from, standOffPx), off(to, standOffPx)];
  const extension = (p: PxPoint): string => line(off(p, EXTENSION_GAP_PX), off(p, standOffPx + EXTENSION_PAST_PX));
  // Figures read from below or from the right, never upside down.
  const turn = (Math.atan2(along[1], along[0]) * 180) / Math.PI;
  const turnDeg = turn > 90.5 ? turn - 180 : turn <= -89.5 ? turn + 180 : turn;
  // The line is broken for its figure; where it is too short for that, the figure stands beyond it.
  const halfGapPx = (dimension.text.length * LETTER_PX) / 2 + FIGURE_GAP_PX;
  const fits = lengthPx >= 2 * (halfGapPx + LEAST_LINE_PX);
  const middle: PxPoint = [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2];
  const onLine = (byPx: number): PxPoint => [middle[0] + along[0] * byPx, middle[1] + along[1] * byPx];
  return {
    extensionPath: extension(from) + extension(to),
    linePath:
      (fits ? line(start, onLine(-halfGapPx)) + line(onLine(halfGapPx), end) : line(start, end)) +
      tick(start, along) +
      tick(end, along),
    reach: [start, end],
    figureAt: fits ? middle : off(middle, FIGURE_OFF_LINE_PX),
    // Upright dimension lines read from the right: bottom to top.
    turnDeg: turnDeg > 89.5 ? -90 : turnDeg,
    anchor: 'middle',
  };
}

function layOutArc(dimension: ArcDimension, px: (p: SheetPoint) => PxPoint, pxPerM: number): DimensionLayout {
  const { startRad, endRad, radiusM } = dimension;
  const centre = px(dimension.centre);
  const r = radiusM * pxPerM;
  // Bearings run from down the sheet toward the right.
  const at = (rad: number, radiusPx: number): PxPoint => [
    centre[0] + Math.sin(rad) * radiusPx,
    centre[1] + Math.cos(rad) * radiusPx,
  ];
  const [from, to] = [at(startRad, r), at(endRad, r)];
  const large = Math.abs(endRad - startRad) > Math.PI ? 1 : 0;
  const sweep = endRad > startRad ? 0 : 1;
  const middle = (startRad + endRad) / 2;
  const side = Math.sin(middle);
  return {
    extensionPath: line(centre, at(startRad, r + EXTENSION_PAST_PX)) + line(centre, at(endRad, r + EXTENSION_PAST_PX)),
    linePath:
      `M${xy(from)}A${r} ${r} 0 ${large} ${sweep} ${xy(to)}` +
      tick(from, [Math.cos(startRad), -Math.sin(startRad)]) +
      tick(to, [Math.cos(endRad), -Math.sin(endRad)]),
    reach: [from, to],
    figureAt: at(middle, r + FIGURE_OFF_ARC_PX),
    turnDeg: 0,
    anchor: side > 0.3 ? 'start' : side < -0.3 ? 'end' : 'middle',
  };
}

const xy = ([x, y]: PxPoint): string => `${x.toFixed(2)} ${y.toFixed(2)}`;
const line = (a: PxPoint, b: PxPoint): string => `M${xy(a)}L${xy(b)}`;

/** A short stroke at 45 degrees to the dimension line (ISO 129-1 has it among its terminators; from memory). */
function tick([x, y]: PxPoint, [dx, dy]: PxPoint): string {
  const [tx, ty] = [(dx - dy) * Math.SQRT1_2 * TICK_PX, (dx + dy) * Math.SQRT1_2 * TICK_PX];
  return line([x - tx, y - ty], [x + tx, y + ty]);
}
