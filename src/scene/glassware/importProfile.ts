import { fail, ok, type Result } from '../../core/result.ts';
import { type ArcPoint, fitBiarcs } from '../profile/biarc.ts';
import { type PathSide, readSvgPath } from '../profile/svgPath.ts';
import { type DrawnPoint, type GlassProfile, MOST_PROFILE_POINTS } from '../records.ts';

export interface SvgProfileOptions {
  /** Size of one unit of the drawing. */
  readonly mmPerUnit: number;
  /** Where the axis stands in the drawing; its least x when left out. */
  readonly axisX?: number;
  /** How far arcs may stray from curves. */
  readonly toleranceMm?: number;
}

/** An end this near the axis, as a share of the drawing's width, lies on it. */
const ON_AXIS_SHARE = 0.002;

/**
 * A glass from the outline of its half section, drawn on the right of the axis as one SVG path (y down): closed along the
 * axis, or open from axis to axis. It may begin anywhere and run either way round. Curves become arcs within
 * `toleranceMm` (0.01 mm). Gives a profile of shape ownProfile whose checks are still to come when it is built, or a
 * sentence that says what to mend.
 */
export function profileFromSvgPath(
  data: string,
  { mmPerUnit, axisX, toleranceMm = 0.01 }: SvgProfileOptions,
): Result<Extract<GlassProfile, { shape: 'ownProfile' }>, string> {
  if (!(mmPerUnit > 0 && mmPerUnit < 1e6)) return fail('the scale must be more than 0 mm to a unit');
  const read = readSvgPath(data);
  if (!read.ok) return read;
  const xs = read.value.flatMap((side) => [side.x0, side.x1]);
  const axis = axisX ?? Math.min(...xs);
  const slack = ON_AXIS_SHARE * Math.max(1e-9, Math.max(...xs) - axis);
  const onAxis = (x: number): boolean => Math.abs(x - axis) <= slack;
  const walk = walkOffAxis(read.value, onAxis);
  if (!walk.ok) return walk;
  const arcs = arcsOf(walk.value, toleranceMm / mmPerUnit);
  if (arcs.length > MOST_PROFILE_POINTS)
    return fail(`the outline takes ${arcs.length} points; at most ${MOST_PROFILE_POINTS}: simplify it`);
  // Seen with y up; the foot's end first.
  let points = arcs.map(({ x, y, bulge }): DrawnPoint & { bulge: number } => ({
    r: Math.max(0, x - axis),
    y: -y,
    bulge,
  }));
  points[0] = { ...points[0], r: 0 };
  points[points.length - 1] = { ...points[points.length - 1], r: 0 };
  if (points[0].y > points[points.length - 1].y) points = reversed(points);
  const ys = points.map((p) => p.y);
  const heightM = ((Math.max(...ys) - Math.min(...ys)) * mmPerUnit) / 1000;
  if (!(heightM > 0 && heightM <= 50)) return fail(`the glass would be ${heightM} m high: check the scale`);
  return ok({
    shape: 'ownProfile',
    heightM,
    points: points.map(({ r, y, bulge }) => ({ r, y, ...(Math.abs(bulge) > 1e-6 ? { bulge } : {}) })),
  });
}

/** The sides in order from one end on the axis to the other; those along the axis are dropped. */
function walkOffAxis(sides: readonly PathSide[], onAxis: (x: number) => boolean): Result<readonly PathSide[], string> {
  const alongAxis = (side: PathSide): boolean => side.type === 'line' && onAxis(side.x0) && onAxis(side.x1);
  const first = sides[0];
  const last = sides[sides.length - 1];
  const closed = Math.hypot(first.x0 - last.x1, first.y0 - last.y1) < 1e-6;
  let run = sides;
  if (closed) {
    const cut = sides.findIndex(alongAxis);
    if (cut < 0) return fail('a closed outline must have a side along the axis');
    run = [...sides.slice(cut + 1), ...sides.slice(0, cut)];
  }
  while (run.length > 0 && alongAxis(run[0])) run = run.slice(1);
  while (run.length > 0 && alongAxis(run[run.length - 1])) run = run.slice(0, -1);
  if (run.length < 3) return fail('the outline needs at least three sides off the axis');
  if (!onAxis(run[0].x0) || !onAxis(run[run.length - 1].x1))
    return fail('the outline must begin and end on the axis: give axisX if it is not the left edge of the drawing');
  return ok(run);
}

/** Arc points of a walk, the last point with bulge 0. */
function arcsOf(walk: readonly PathSide[], tolerance: number): ArcPoint[] {
  const out: ArcPoint[] = [];
  for (const side of walk) {
    if (side.type === 'line') out.push({ x: side.x0, y: side.y0, bulge: 0 });
    else if (side.bulge !== undefined) out.push({ x: side.x0, y: side.y0, bulge: side.bulge });
    // Fitted with y down, where left is right.
    else out.push(...fitBiarcs(side.at, tolerance).map((p) => ({ ...p, bulge: -p.bulge })));
  }
  const last = walk[walk.length - 1];
  out.push({ x: last.x1, y: last.y1, bulge: 0 });
  return out;
}

const reversed = (points: readonly (DrawnPoint & { bulge: number })[]): (DrawnPoint & { bulge: number })[] =>
  points.map((_, i) => {
    const from = points[points.length - 1 - i];
    const side = points[points.length - 2 - i];
    return { ...from, bulge: side ? -side.bulge : 0 };
  });
