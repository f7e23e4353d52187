import type { RevolvedArcShape } from '../../core/shape.ts';
import { normalize, sub, type Vec3 } from '../../core/vec3.ts';
import { arcAbout, lineBetween, type ProfilePiece, profilePoint, roundCorner } from '../profile/index.ts';
import { frameAlong, type SolidPart, turnedParts } from './solidPart.ts';

/** A whole ball about the origin, front outward. */
export const ballShape = (radiusM: number): RevolvedArcShape => ({
  type: 'revolvedArc',
  centreRM: 0,
  centreYM: 0,
  radiusM,
  angle0Rad: -Math.PI / 2,
  angle1Rad: Math.PI / 2,
});

/** Closed profile of a round bar from height 0 to `lengthM`, its ends rounded by `edgeM`, at most the radius. */
export function rodProfile(radiusM: number, lengthM: number, edgeM: number): ProfilePiece[] {
  const low = profilePoint(radiusM, 0);
  const high = profilePoint(radiusM, lengthM);
  const edge = Math.min(edgeM, radiusM, lengthM / 2);
  if (edge < 1e-7) {
    return [lineBetween(profilePoint(0, 0), low), lineBetween(low, high), lineBetween(high, profilePoint(0, lengthM))];
  }
  const lower = roundCorner(profilePoint(0, 0), low, high, edge);
  const upper = roundCorner(low, high, profilePoint(0, lengthM), edge);
  return [
    lineBetween(profilePoint(0, 0), lower.from),
    lower,
    lineBetween(lower.to, upper.from),
    upper,
    lineBetween(upper.to, profilePoint(0, lengthM)),
  ];
}

/** A round bar between the centres of its two ends, faces outward. */
export function rodParts(role: string, fromM: Vec3, toM: Vec3, radiusM: number, edgeM: number): SolidPart[] {
  const along = sub(toM, fromM);
  const lengthM = Math.hypot(...along);
  return turnedParts(role, rodProfile(radiusM, lengthM, edgeM), frameAlong(fromM, normalize(along)));
}

/** A tube, open at both ends: outside, two flat rims, inside; the front looks out of its wall. */
export function tubeParts(
  role: string,
  fromM: Vec3,
  toM: Vec3,
  radii: { readonly outerM: number; readonly innerM: number },
): SolidPart[] {
  const along = sub(toM, fromM);
  const lengthM = Math.hypot(...along);
  const low = [profilePoint(radii.innerM, 0), profilePoint(radii.outerM, 0)] as const;
  const high = [profilePoint(radii.innerM, lengthM), profilePoint(radii.outerM, lengthM)] as const;
  const pieces = [
    lineBetween(low[0], low[1]),
    lineBetween(low[1], high[1]),
    lineBetween(high[1], high[0]),
    lineBetween(high[0], low[0]),
  ];
  return turnedParts(role, pieces, frameAlong(fromM, normalize(along)));
}

/** Upper half of an oval of revolution as profile, from its waist up to the axis; mirror it for the lower half. */
export function ovalProfile(radiusM: number, halfLengthM: number): ProfilePiece[] {
  // Two arcs, tangent where they meet, blunt enough to look like an ellipse. See `ovalBowl` for the relation used.
  const h = halfLengthM;
  const r = radiusM;
  if (Math.abs(h - r) < 1e-9) return [arcAbout(profilePoint(0, 0), r, -Math.PI / 2, Math.PI / 2)];
  const tip = (r * r) / h;
  const waist = (r ** 2 + h ** 2 - 2 * h * tip) / (2 * (r - tip));
  const tipCentre = profilePoint(0, h - tip);
  const waistCentre = { rM: r - waist, yM: 0 };
  const sign = waist > tip ? 1 : -1;
  const touch = Math.atan2(sign * (tipCentre.yM - waistCentre.yM), sign * (tipCentre.rM - waistCentre.rM));
  return [
    arcAbout({ rM: 0, yM: -tipCentre.yM }, tip, -Math.PI / 2, -touch),
    arcAbout(waistCentre, waist, -touch, touch),
    arcAbout(tipCentre, tip, touch, Math.PI / 2),
  ];
}
