import type { ArcDimension, Dimension, LinearDimension } from './dimensions.ts';
import type { SheetPoint } from './projection.ts';
import type { PxPoint } from './sheetPx.ts';

/** The dimension line stands this far off what it measures. */
const STAND_OFF_PX = 24;
const EXTENSION_GAP_PX = 5;
const EXTENSION_PAST_PX = 5;
/** Half of the slanting stroke at each end. */
const TICK_PX = 4;

interface DimensionLineProps {
  readonly dimension: Dimension;
  readonly px: (p: SheetPoint) => PxPoint;
  readonly pxPerM: number;
}

/** A figure on a dimension line with slanting ticks, as on an architect's sheet. */
export function DimensionLine({ dimension, px, pxPerM }: DimensionLineProps) {
  return dimension.kind === 'linear' ? (
    <Linear dimension={dimension} px={px} />
  ) : (
    <Arc dimension={dimension} px={px} pxPerM={pxPerM} />
  );
}

function Linear({ dimension, px }: { readonly dimension: LinearDimension; readonly px: (p: SheetPoint) => PxPoint }) {
  const [ax, ay] = px(dimension.from);
  const [bx, by] = px(dimension.to);
  const [nx, ny] = dimension.awayFrom;
  const lengthPx = Math.hypot(bx - ax, by - ay);
  const [dx, dy] = lengthPx > 0 ? [(bx - ax) / lengthPx, (by - ay) / lengthPx] : [1, 0];
  const off = (x: number, y: number, by_: number): string => `${x + nx * by_} ${y + ny * by_}`;
  const start: PxPoint = [ax + nx * STAND_OFF_PX, ay + ny * STAND_OFF_PX];
  const end: PxPoint = [bx + nx * STAND_OFF_PX, by + ny * STAND_OFF_PX];
  const extension = (x: number, y: number): string =>
    `M${off(x, y, EXTENSION_GAP_PX)}L${off(x, y, STAND_OFF_PX + EXTENSION_PAST_PX)}`;
  // Figures read from below or from the right, never upside down.
  let turn = (Math.atan2(dy, dx) * 180) / Math.PI;
  if (turn > 90.5 || turn <= -89.5) turn += turn > 0 ? -180 : 180;
  return (
    <g className="kg-dimension">
      <path d={`${extension(ax, ay)}${extension(bx, by)}`} data-weight="hair" />
      <path d={`M${start[0]} ${start[1]}L${end[0]} ${end[1]}${tick(start, dx, dy)}${tick(end, dx, dy)}`} />
      <text transform={`translate(${(start[0] + end[0]) / 2} ${(start[1] + end[1]) / 2}) rotate(${turn})`} dy="0.36em">
        {dimension.text}
      </text>
    </g>
  );
}

/** A short stroke at 45 degrees to the dimension line (ISO 129-1 allows it in place of an arrow; from memory). */
function tick([x, y]: PxPoint, dx: number, dy: number): string {
  const [tx, ty] = [(dx - dy) * Math.SQRT1_2 * TICK_PX, (dx + dy) * Math.SQRT1_2 * TICK_PX];
  return `M${x - tx} ${y - ty}L${x + tx} ${y + ty}`;
}

interface ArcProps {
  readonly dimension: ArcDimension;
  readonly px: (p: SheetPoint) => PxPoint;
  readonly pxPerM: number;
}

function Arc({ dimension, px, pxPerM }: ArcProps) {
  const { startRad, endRad, radiusM } = dimension;
  const [cx, cy] = px(dimension.centre);
  const r = radiusM * pxPerM;
  // Bearings run from down the sheet toward the right.
  const at = (rad: number, radius = r): PxPoint => [cx + Math.sin(rad) * radius, cy + Math.cos(rad) * radius];
  const [from, to] = [at(startRad), at(endRad)];
  const large = Math.abs(endRad - startRad) > Math.PI ? 1 : 0;
  const sweep = endRad > startRad ? 0 : 1;
  const middle = (startRad + endRad) / 2;
  const [tx, ty] = at(middle, r + 12);
  const side = Math.sin(middle);
  return (
    <g className="kg-dimension">
      <path
        d={`M${cx} ${cy}L${at(startRad, r + 6).join(' ')}M${cx} ${cy}L${at(endRad, r + 6).join(' ')}`}
        data-weight="hair"
      />
      <path
        d={`M${from.join(' ')}A${r} ${r} 0 ${large} ${sweep} ${to.join(' ')}${tick(from, Math.cos(startRad), -Math.sin(startRad))}${tick(to, Math.cos(endRad), -Math.sin(endRad))}`}
      />
      <text x={tx} y={ty} dy="0.36em" data-anchor={side > 0.3 ? 'start' : side < -0.3 ? 'end' : 'middle'}>
        {dimension.text}
      </text>
    </g>
  );
}
