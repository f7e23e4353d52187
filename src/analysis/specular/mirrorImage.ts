import { addScaled, dot, sub, type Vec3 } from '../../core/vec3.ts';

/** A plane through a point with a unit normal. */
export interface Plane {
  readonly pointM: Vec3;
  readonly normal: Vec3;
}

/** Signed distance of a point from a plane, positive on the side of the normal. */
export const planeDistanceM = (plane: Plane, pointM: Vec3): number => dot(sub(pointM, plane.pointM), plane.normal);

/** Where a point seems to stand when it is seen in a plane mirror: as far behind the plane as it is in front. */
export const mirrorImagePoint = (plane: Plane, pointM: Vec3): Vec3 =>
  addScaled(pointM, plane.normal, -2 * planeDistanceM(plane, pointM));

/**
 * Where on a plane mirror the eye sees the source: the line from the eye to the source's mirror image meets the plane.
 * For the table y = 0 in the plane of the axis this is z = ze + (zs - ze) he / (he + hs), with the heights he and hs.
 * Null unless both stand on the same side of the plane.
 *
 * Derivation: law of reflection (Hunter, Biver and Fuqua, Light: Science and Magic, ch. 3, 'family of angles').
 */
export function mirrorPoint(plane: Plane, eyeM: Vec3, sourceM: Vec3): Vec3 | null {
  const eyeHeight = planeDistanceM(plane, eyeM);
  const sourceHeight = planeDistanceM(plane, sourceM);
  if (!(eyeHeight * sourceHeight > 0)) return null;
  const image = mirrorImagePoint(plane, sourceM);
  return addScaled(eyeM, sub(image, eyeM), eyeHeight / (eyeHeight + sourceHeight));
}
