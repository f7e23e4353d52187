import { cross, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { FamilyOfAngles } from './familyOfAngles.ts';

/** How a polygon stands to a family of angles. */
export interface FamilyClearance {
  /** Distance outside it, metres (never more than the true one); under zero, how deep inside it reaches. */
  readonly distanceM: number;
  /** Unit direction of the smallest move that takes the polygon out, or of the gap. */
  readonly outward: Vec3;
}

/** A direction in which the family ends, and where along it. */
interface EndedAxis {
  readonly axis: Vec3;
  readonly endM: number;
}

const SLACK = 1e-9;

/**
 * Separates a convex polygon from a family by the best of all planes through a face of either or along an edge of both
 * (separating axis theorem for convex bodies, Gottschalk 1996): exact for touching and for the depth of overlap.
 */
export function familyClearance(family: FamilyOfAngles, cornersM: readonly Vec3[]): FamilyClearance {
  let best: FamilyClearance = { distanceM: Number.NEGATIVE_INFINITY, outward: [0, 1, 0] };
  for (const { axis, endM } of endedAxes(family, cornersM)) {
    const distanceM = leastAlong(axis, cornersM) - endM;
    if (distanceM > best.distanceM) best = { distanceM, outward: axis };
  }
  return best;
}

/** Least distance along a unit direction that takes the polygon out of the family, metres; null when none does. */
export function distanceToClearM(family: FamilyOfAngles, cornersM: readonly Vec3[], direction: Vec3): number | null {
  let best: number | null = null;
  for (const { axis, endM } of endedAxes(family, cornersM)) {
    const missing = endM - leastAlong(axis, cornersM);
    if (missing <= 0) return 0;
    const along = dot(axis, direction);
    if (along > SLACK && (best === null || missing / along < best)) best = missing / along;
  }
  return best;
}

/** All candidate axes along which the unbounded family has an end. */
function endedAxes(family: FamilyOfAngles, cornersM: readonly Vec3[]): EndedAxis[] {
  const rays = family.visibleM.map((corner) => normalize(sub(corner, family.apexM)));
  const candidates: Vec3[] = family.planes.map(({ normal }) => scale(normal, -1));
  const edges = cornersM.map((corner, i) => sub(cornersM[(i + 1) % cornersM.length], corner));
  const push = (axis: Vec3): void => {
    if (length(axis) < SLACK) return;
    const unit = normalize(axis);
    candidates.push(unit, scale(unit, -1));
  };
  if (edges.length > 2) push(cross(edges[0], edges[1]));
  const rim = family.visibleM.map((corner, i) => sub(family.visibleM[(i + 1) % family.visibleM.length], corner));
  for (const edge of edges) for (const own of [...rays, ...rim]) push(cross(edge, own));
  return candidates.flatMap((axis) => {
    if (rays.some((ray) => dot(ray, axis) > SLACK)) return [];
    const endM = family.visibleM.reduce((most, p) => Math.max(most, dot(p, axis)), Number.NEGATIVE_INFINITY);
    return [{ axis, endM }];
  });
}

const leastAlong = (axis: Vec3, pointsM: readonly Vec3[]): number =>
  pointsM.reduce((least, p) => Math.min(least, dot(p, axis)), Number.POSITIVE_INFINITY);
