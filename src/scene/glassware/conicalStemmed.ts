import {
  arcAbout,
  lineBetween,
  type ProfilePiece,
  profilePoint,
  tangentDirectionLeavingCircleOnLeft,
} from '../profile/index.ts';
import type { GlassResult } from './glassBody.ts';
import { type BowlSpan, buildStemmedBody, type StemmedProfile } from './stemmed.ts';

/** The point of the cone is rounded to this share of the rim's radius, and never sharper than two walls. Invented. */
const POINT_SHARE = 0.1;

/** Conical stemmed glass: a straight cone on a small round bottom. */
export const buildConicalStemmedBody = (recordId: string, profile: StemmedProfile): GlassResult =>
  buildStemmedBody(recordId, profile, (span) => coneCurve(span, Math.max(POINT_SHARE * span.rimRM, 2 * profile.wallM)));

/** Arc on the axis from the bottom, then the line that leaves it tangent for the rim. */
function coneCurve(span: BowlSpan, pointRadiusM: number): ProfilePiece[] {
  const rim = profilePoint(span.rimRM, span.rimYM);
  const radiusM = Math.min(pointRadiusM, 0.8 * span.rimRM, 0.8 * (span.rimYM - span.bottomYM));
  const centre = profilePoint(0, span.bottomYM + radiusM);
  // From the rim down to the circle, which lies on the right of that walk: mirror it to use the left-hand tangent.
  const mirrored = tangentDirectionLeavingCircleOnLeft(profilePoint(-rim.rM, rim.yM), centre, radiusM);
  const down = { rM: -mirrored.rM, yM: mirrored.yM };
  const outAngle = Math.atan2(down.rM, -down.yM);
  const arc = arcAbout(centre, radiusM, -Math.PI / 2, outAngle);
  return [arc, lineBetween(arc.to, rim)];
}
