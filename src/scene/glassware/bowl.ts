import { arcAbout, lineBetween, type ProfilePiece, profilePoint } from '../profile/index.ts';

/**
 * Oval from the axis at height `bottomYM`, level there, up to radius `radiusM` at `topYM`, upright there: one quarter
 * circle when it is as high as wide, else two arcs that are tangent where they meet. The lower arc is centred on the
 * axis, the upper one at the height of the top. With h the height, R the radius, a the lower and b the upper arc's
 * radius, the distance of the centres, |a - b|, gives R^2 + h^2 - 2 R b - 2 h a + 2 a b = 0.
 *
 * @param bluntness for an oval lower than wide: upper arc's radius over h; for a taller one: lower arc's radius over R.
 *   Over 0, under 1.
 */
export function ovalBowl(bottomYM: number, radiusM: number, topYM: number, bluntness: number): ProfilePiece[] {
  const h = topYM - bottomYM;
  if (Math.abs(h - radiusM) < 1e-9) return [arcAbout(profilePoint(0, topYM), radiusM, -Math.PI / 2, 0)];
  const upper =
    h < radiusM
      ? bluntness * h
      : (radiusM ** 2 + h ** 2 - 2 * h * bluntness * radiusM) / (2 * radiusM * (1 - bluntness));
  const lower = h < radiusM ? (radiusM ** 2 + h ** 2 - 2 * radiusM * upper) / (2 * (h - upper)) : bluntness * radiusM;
  const lowerCentre = profilePoint(0, bottomYM + lower);
  const upperCentre = profilePoint(radiusM - upper, topYM);
  // The arcs touch on the line through both centres, beyond the centre of the smaller one.
  const away = lower > upper ? 1 : -1;
  const touch = Math.atan2(away * (upperCentre.yM - lowerCentre.yM), away * (upperCentre.rM - lowerCentre.rM));
  return [arcAbout(lowerCentre, lower, -Math.PI / 2, touch), arcAbout(upperCentre, upper, touch, 0)];
}

/** Arc from upright at (radiusM, fromYM) in to (topRadiusM, topYM); straight when the two radii agree. */
export function closingArc(radiusM: number, fromYM: number, topRadiusM: number, topYM: number): ProfilePiece {
  const h = topYM - fromYM;
  const d = radiusM - topRadiusM;
  if (d < 1e-7) return lineBetween(profilePoint(radiusM, fromYM), profilePoint(radiusM, topYM));
  const arc = (d * d + h * h) / (2 * d);
  return arcAbout(profilePoint(radiusM - arc, fromYM), arc, 0, Math.asin(h / arc));
}
