import { arcAbout, type ProfileArc, type ProfilePoint, profilePoint } from './piece.ts';

/** How far from the corner the rounding of `roundCorner` begins, on both sides. */
export function cornerTangentLengthM(a: ProfilePoint, corner: ProfilePoint, b: ProfilePoint, radiusM: number): number {
  return radiusM * Math.tan(Math.abs(turnRad(a, corner, b)) / 2);
}

/** Signed turn of the walk a, corner, b: positive to the left. */
function turnRad(a: ProfilePoint, corner: ProfilePoint, b: ProfilePoint): number {
  const ur = corner.rM - a.rM;
  const uy = corner.yM - a.yM;
  const vr = b.rM - corner.rM;
  const vy = b.yM - corner.yM;
  return Math.atan2(ur * vy - uy * vr, ur * vr + uy * vy);
}

/**
 * The arc that rounds the corner of the walk a, corner, b and is tangent to both legs. Its `from` lies on the first leg,
 * its `to` on the second. The caller makes sure that both legs are longer than `cornerTangentLengthM`.
 */
export function roundCorner(a: ProfilePoint, corner: ProfilePoint, b: ProfilePoint, radiusM: number): ProfileArc {
  const turn = turnRad(a, corner, b);
  const inLength = Math.hypot(corner.rM - a.rM, corner.yM - a.yM);
  const ur = (corner.rM - a.rM) / inLength;
  const uy = (corner.yM - a.yM) / inLength;
  const back = radiusM * Math.tan(Math.abs(turn) / 2);
  const side = turn > 0 ? 1 : -1;
  // The centre is to the left of the first leg for a left turn, to the right for a right turn.
  const centre = profilePoint(corner.rM - ur * back - uy * radiusM * side, corner.yM - uy * back + ur * radiusM * side);
  const angle0Rad = Math.atan2(-ur * side, uy * side);
  return arcAbout(centre, radiusM, angle0Rad, angle0Rad + turn);
}

/**
 * Unit direction of the straight line from `point` that touches the circle and has it on its left.
 * The point must lie outside the circle.
 */
export function tangentDirectionLeavingCircleOnLeft(
  point: ProfilePoint,
  centre: ProfilePoint,
  radiusM: number,
): ProfilePoint {
  const dr = centre.rM - point.rM;
  const dy = centre.yM - point.yM;
  const angle = Math.atan2(dy, dr) - Math.asin(radiusM / Math.hypot(dr, dy));
  return { rM: Math.cos(angle), yM: Math.sin(angle) };
}
