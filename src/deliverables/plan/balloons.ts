import { box as boxMark, line, type Mark, type PointMm, text } from '../paper/marks.ts';
import { textWidthMm } from '../paper/typeset.ts';
import { type Box, isInside } from './boxes.ts';
import type { TakenBoxes } from './takenBoxes.ts';

/** A thing that gets its mark beside it. */
export interface Balloon {
  readonly mark: string;
  /** A light's mark stands in a circle, a sheet's in a square, the camera's in a box with round hands. */
  readonly kind: 'fixture' | 'grip' | 'camera';
  /** Convex outline of the thing on paper. */
  readonly hullMm: readonly PointMm[];
}

const SIDE_MM = 4.6;
const MARK_PT = 7.5;
const DISTANCES_MM = [1.2, 3.5, 6.5, 10, 15];
const DIRECTIONS = 16;

/**
 * Sets each mark beside its thing, where it covers the least of what is there already, near rather than far, with a leader
 * when it does not touch. Deterministic. Adds what it takes to `taken`.
 */
export function placeBalloons(balloons: readonly Balloon[], window: Box, taken: TakenBoxes): Mark[] {
  return balloons.flatMap((balloon) => {
    const halfWidth = Math.max(SIDE_MM, textWidthMm(balloon.mark, MARK_PT, 'bold') + 2) / 2;
    const spots = spotsRound(balloon, halfWidth).filter(({ box }) => isInside(box, window));
    let best = spots[0];
    let least = Number.POSITIVE_INFINITY;
    for (const spot of spots) {
      const cost = taken.coveredMm2(spot.box, 0.5) * 4 + spot.distanceMm;
      if (cost < least - 1e-9) {
        least = cost;
        best = spot;
      }
    }
    if (!best) return [];
    taken.add(best.box);
    return drawBalloon(balloon, best, halfWidth);
  });
}

interface Spot {
  readonly box: Box;
  readonly centre: PointMm;
  readonly edge: PointMm;
  readonly distanceMm: number;
}

function spotsRound({ hullMm }: Balloon, halfWidth: number): Spot[] {
  const centreOf = (axis: 0 | 1): number => hullMm.reduce((sum, p) => sum + p[axis], 0) / hullMm.length;
  const middle: PointMm = [centreOf(0), centreOf(1)];
  const half = SIDE_MM / 2;
  return DISTANCES_MM.flatMap((distanceMm) =>
    Array.from({ length: DIRECTIONS }, (_, i): Spot => {
      const a = (2 * Math.PI * i) / DIRECTIONS - Math.PI / 4;
      const [dx, dy] = [Math.cos(a), Math.sin(a)];
      // How far the thing and the balloon reach along this direction: between the two lies the wanted distance.
      const reach = hullMm.reduce((most, [x, y]) => Math.max(most, (x - middle[0]) * dx + (y - middle[1]) * dy), 0);
      const own = Math.abs(dx) * halfWidth + Math.abs(dy) * half;
      const away = reach + distanceMm + own;
      const centre: PointMm = [middle[0] + dx * away, middle[1] + dy * away];
      return {
        box: { x0: centre[0] - halfWidth, x1: centre[0] + halfWidth, y0: centre[1] - half, y1: centre[1] + half },
        centre,
        edge: nearestOnOutline(hullMm, centre),
        distanceMm,
      };
    }),
  );
}

function nearestOnOutline(hullMm: readonly PointMm[], p: PointMm): PointMm {
  let best = hullMm[0];
  let least = Number.POSITIVE_INFINITY;
  hullMm.forEach((a, i) => {
    const b = hullMm[(i + 1) % hullMm.length];
    const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
    const squared = ux * ux + uy * uy;
    const t = squared > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / squared)) : 0;
    const q: PointMm = [a[0] + t * ux, a[1] + t * uy];
    const d = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (d < least) [least, best] = [d, q];
  });
  return best;
}

function drawBalloon({ mark, kind }: Balloon, { centre, edge, distanceMm }: Spot, halfWidth: number): Mark[] {
  const [x, y] = centre;
  const half = SIDE_MM / 2;
  const stroke = { widthMm: 0.25 };
  const [dx, dy] = [edge[0] - x, edge[1] - y];
  const away = Math.hypot(dx, dy);
  const leader: Mark[] =
    distanceMm > 2 ? [line([[x + (dx / away) * half, y + (dy / away) * half], edge], { widthMm: 0.13 })] : [];
  const ring: Mark =
    kind === 'fixture' && halfWidth <= half
      ? { type: 'circle', centreMm: centre, radiusMm: half, stroke, fill: 1 }
      : boxMark([x - halfWidth, y - half], 2 * halfWidth, SIDE_MM, { stroke, fill: 1 });
  return [...leader, ring, text([x, y + 0.95], mark, MARK_PT, { weight: 'bold', anchor: 'middle' })];
}
