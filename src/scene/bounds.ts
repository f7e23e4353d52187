import type { RigidTransform } from '../core/rigid.ts';
import { applyToPoint } from '../core/rigid.ts';
import type { AzimuthRange, PlacedShape, RevolvedArcShape, RevolvedLineShape, Shape } from '../core/shape.ts';
import { add, type Vec3 } from '../core/vec3.ts';
import type { Bounds } from './setModel.ts';

/** Exact world bounds of a placed shape, parts of turns and arcs included. */
export function boundsOfShape({ shape, worldFromLocal }: PlacedShape): Bounds {
  switch (shape.type) {
    case 'quad': {
      const { originM: o, edgeUM: u, edgeVM: v } = shape;
      return boundsOfPoints([o, add(o, u), add(o, v), add(add(o, u), v)].map((p) => applyToPoint(worldFromLocal, p)));
    }
    case 'mesh':
      return boundsOfMesh(shape, worldFromLocal);
    case 'revolvedLine':
    case 'revolvedArc':
      return boundsOfRevolved(shape, worldFromLocal);
  }
}

export function boundsOfPoints(pointsM: readonly Vec3[]): Bounds {
  const min = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const max = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const p of pointsM) {
    for (let k = 0; k < 3; k++) {
      min[k] = Math.min(min[k], p[k]);
      max[k] = Math.max(max[k], p[k]);
    }
  }
  return { minM: [min[0], min[1], min[2]], maxM: [max[0], max[1], max[2]] };
}

export const uniteBounds = (a: Bounds, b: Bounds): Bounds => boundsOfPoints([a.minM, a.maxM, b.minM, b.maxM]);

function boundsOfMesh(mesh: Extract<Shape, { type: 'mesh' }>, worldFromLocal: RigidTransform): Bounds {
  const points: Vec3[] = [];
  const p = mesh.positionsM;
  for (const i of new Set(mesh.indices))
    points.push(applyToPoint(worldFromLocal, [p[3 * i], p[3 * i + 1], p[3 * i + 2]]));
  return boundsOfPoints(points);
}

/**
 * Along a world axis a point of the shape stands at r (ex cos phi + ez sin phi) + y ey (e: the axis in local space). For
 * any r >= 0 the largest value takes the largest k(phi) = ex cos phi + ez sin phi on the azimuth range, whatever the
 * profile point; what is left, r k + y ey along the profile, is linear on a line and a cosine on an arc.
 */
function boundsOfRevolved(shape: RevolvedLineShape | RevolvedArcShape, t: RigidTransform): Bounds {
  const min = [0, 0, 0];
  const max = [0, 0, 0];
  for (let axis = 0; axis < 3; axis++) {
    const ex = t.rotation[3 * axis];
    const ey = t.rotation[3 * axis + 1];
    const ez = t.rotation[3 * axis + 2];
    max[axis] = mostAlongProfile(shape, mostOfTurn(ex, ez, shape.azimuth), ey) + t.translationM[axis];
    min[axis] = -mostAlongProfile(shape, mostOfTurn(-ex, -ez, shape.azimuth), -ey) + t.translationM[axis];
  }
  return { minM: [min[0], min[1], min[2]], maxM: [max[0], max[1], max[2]] };
}

/** Largest ex cos phi + ez sin phi on the range. */
function mostOfTurn(ex: number, ez: number, range: AzimuthRange | undefined): number {
  const whole = Math.hypot(ex, ez);
  if (!range || isWithinTurn(Math.atan2(ez, ex), range.startRad, range.endRad)) return whole;
  const at = (phi: number) => ex * Math.cos(phi) + ez * Math.sin(phi);
  return Math.max(at(range.startRad), at(range.endRad));
}

/** Largest r k + y e along the profile. */
function mostAlongProfile(shape: RevolvedLineShape | RevolvedArcShape, k: number, e: number): number {
  if (shape.type === 'revolvedLine') return Math.max(shape.r0M * k + shape.y0M * e, shape.r1M * k + shape.y1M * e);
  const { centreRM, centreYM, radiusM, angle0Rad, angle1Rad } = shape;
  const middle = centreRM * k + centreYM * e;
  const lo = Math.min(angle0Rad, angle1Rad);
  const hi = Math.max(angle0Rad, angle1Rad);
  if (isWithinTurn(Math.atan2(e, k), lo, hi)) return middle + radiusM * Math.hypot(k, e);
  const at = (a: number) => middle + radiusM * (k * Math.cos(a) + e * Math.sin(a));
  return Math.max(at(lo), at(hi));
}

function isWithinTurn(angle: number, startRad: number, endRad: number): boolean {
  const turn = 2 * Math.PI;
  const past = (angle - startRad) % turn;
  return (past < 0 ? past + turn : past) <= endRad - startRad;
}
