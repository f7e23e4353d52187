import type { RigidTransform } from './rigid.ts';
import type { Vec3 } from './vec3.ts';

/**
 * The exact shapes that a set is made of, in metres, in a local frame. Turned things (glassware, bottles, bulbs,
 * tubes, round plinths, rounded edges of ice) are pieces of surfaces of revolution about local +y and stay exact:
 * nothing is cut into facets on its way to the tracer.
 *
 * Front side. Every surface has one, given by its normal:
 * - `quad`: normal = edgeU x edgeV.
 * - `revolvedLine`, `revolvedArc`: walk the profile in the (r, y) half-plane, r to the right, y up, from its first
 *   point to its last; the front is on the right hand of the walk. A closed solid walked counter-clockwise (out along
 *   the bottom, up the outside, in over the top) therefore has all its normals outward.
 * - `mesh`: normal = (p1 - p0) x (p2 - p0) of each triangle.
 */
export type Shape = QuadShape | RevolvedLineShape | RevolvedArcShape | MeshShape;

/** Parallelogram with corners origin, origin + edgeU, origin + edgeU + edgeV, origin + edgeV. */
export interface QuadShape {
  readonly type: 'quad';
  readonly originM: Vec3;
  readonly edgeUM: Vec3;
  readonly edgeVM: Vec3;
}

/** Azimuth about +y: 0 at +x, 90 degrees at +z. A full turn when left out. Start < end <= start + 2 pi. */
export interface AzimuthRange {
  readonly startRad: number;
  readonly endRad: number;
}

/** Straight profile piece turned about +y: a cylinder, cone, disc or ring. */
export interface RevolvedLineShape {
  readonly type: 'revolvedLine';
  readonly r0M: number;
  readonly y0M: number;
  readonly r1M: number;
  readonly y1M: number;
  readonly azimuth?: AzimuthRange;
}

/**
 * Circular profile piece turned about +y: part of a torus, or of a sphere when `centreRM` is 0. Points of the profile
 * are (centreRM + radiusM cos a, centreYM + radiusM sin a) for a from angle0Rad to angle1Rad (either way round).
 * The profile must stay at r >= 0.
 */
export interface RevolvedArcShape {
  readonly type: 'revolvedArc';
  readonly centreRM: number;
  readonly centreYM: number;
  readonly radiusM: number;
  readonly angle0Rad: number;
  readonly angle1Rad: number;
  readonly azimuth?: AzimuthRange;
}

/** Triangles: `positionsM` n x 3 xyz, `indices` m x 3, optional smooth `normals` n x 3 unit. */
export interface MeshShape {
  readonly type: 'mesh';
  readonly positionsM: Float32Array;
  readonly indices: Uint32Array;
  readonly normals?: Float32Array;
}

export interface PlacedShape {
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
}
