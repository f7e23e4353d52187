import { fail, ok, type Result } from '../../core/result.ts';
import { cornerTangentLengthM, roundCorner } from './join.ts';
import { arcAbout, lineBetween, type ProfilePiece, type ProfilePoint, pointAlong, profilePoint } from './piece.ts';

/** A corner as it is drawn: where it is, how it is rounded, and whether the side after it is an arc. */
export interface DrawnCorner {
  readonly rM: number;
  readonly yM: number;
  /** Radius that rounds the corner between two straight sides. */
  readonly roundM?: number;
  /** Tangent of a quarter of the angle of the arc to the next corner, positive when it turns left. */
  readonly bulge?: number;
}

/**
 * Lines and arcs through drawn corners, walked in their order, from first to last (not closed). Fails with a sentence
 * that names the corner: two in one place, a rounding beside an arc, a rounding longer than its sides.
 */
export function piecesFromCorners(corners: readonly DrawnCorner[]): Result<ProfilePiece[], string> {
  const points = corners.map((c) => profilePoint(c.rM, c.yM));
  for (let i = 0; i + 1 < points.length; i++) {
    if (Math.hypot(points[i + 1].rM - points[i].rM, points[i + 1].yM - points[i].yM) < 1e-7)
      return fail(`points ${i} and ${i + 1} lie in one place: leave one out`);
  }
  const fillets: (ProfilePiece | undefined)[] = corners.map(() => undefined);
  const used: number[] = corners.map(() => 0);
  for (let i = 1; i + 1 < corners.length; i++) {
    const radiusM = corners[i].roundM ?? 0;
    if (radiusM <= 0) continue;
    if (corners[i - 1].bulge || corners[i].bulge)
      return fail(`point ${i} is rounded beside an arc: round only between straight sides`);
    used[i] = cornerTangentLengthM(points[i - 1], points[i], points[i + 1], radiusM);
    if (used[i] < 1e-9) continue;
    fillets[i] = roundCorner(points[i - 1], points[i], points[i + 1], radiusM);
  }
  const pieces: ProfilePiece[] = [];
  for (let i = 0; i + 1 < corners.length; i++) {
    const lengthM = Math.hypot(points[i + 1].rM - points[i].rM, points[i + 1].yM - points[i].yM);
    if (used[i] + used[i + 1] > lengthM + 1e-9) {
      const at = used[i] > used[i + 1] ? i : i + 1;
      return fail(`the rounding of point ${at} is longer than its sides: make it smaller`);
    }
    const fillet = fillets[i];
    if (fillet) pieces.push(fillet);
    const bulge = corners[i].bulge ?? 0;
    if (Math.abs(bulge) > 1e-6) pieces.push(...piecesFromBulge(points[i], points[i + 1], bulge));
    else {
      const from = fillet?.to ?? points[i];
      const to = fillets[i + 1]?.from ?? points[i + 1];
      if (Math.hypot(to.rM - from.rM, to.yM - from.yM) > 1e-9) pieces.push(lineBetween(from, to));
    }
  }
  return ok(pieces);
}

/**
 * Arcs of a larger radius than this are drawn as lines: the tracer holds radii in 32-bit words, and a rounding of a
 * large one would open a gap at its ends.
 */
const LARGEST_RADIUS_M = 1;
/** Such lines stay this near the arc. */
const GENTLE_SAGITTA_M = 1e-6;

function piecesFromBulge(a: ProfilePoint, b: ProfilePoint, bulge: number): ProfilePiece[] {
  const arc = arcFromBulge(a, b, bulge);
  if (arc.type !== 'arc' || arc.radiusM <= LARGEST_RADIUS_M) return [arc];
  const chordM = Math.hypot(b.rM - a.rM, b.yM - a.yM);
  const steps = Math.max(1, Math.ceil(chordM / Math.sqrt(8 * arc.radiusM * GENTLE_SAGITTA_M)));
  const at = (k: number): ProfilePoint => pointAlong(arc, k / steps);
  return Array.from({ length: steps }, (_, k) => lineBetween(at(k), at(k + 1)));
}

/** The arc from a to b whose bulge (tangent of a quarter of its angle) is given; left turns are positive. */
export function arcFromBulge(a: ProfilePoint, b: ProfilePoint, bulge: number): ProfilePiece {
  const chordR = b.rM - a.rM;
  const chordY = b.yM - a.yM;
  const angle = 4 * Math.atan(bulge);
  // Centre on the perpendicular bisector, left of the chord for a left turn under 180 degrees.
  const height = (1 - bulge * bulge) / (4 * bulge);
  const centre = {
    rM: (a.rM + b.rM) / 2 - chordY * height,
    yM: (a.yM + b.yM) / 2 + chordR * height,
  };
  const radiusM = Math.hypot(a.rM - centre.rM, a.yM - centre.yM);
  const angle0Rad = Math.atan2(a.yM - centre.yM, a.rM - centre.rM);
  return { ...arcAbout(centre, radiusM, angle0Rad, angle0Rad + angle), from: a, to: b };
}
