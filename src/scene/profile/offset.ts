import { fail, ok, type Result } from '../../core/result.ts';
import { arcAbout, directionAlong, joinPieces, lineBetween, type ProfilePiece, profilePoint } from './piece.ts';

/**
 * The piece moved by `distanceM` to the left of its walk, which is inward for a solid walked counter-clockwise. A line
 * shifts; an arc keeps its centre. Undefined when the arc has no radius left.
 */
export function offsetPiece(piece: ProfilePiece, distanceM: number): ProfilePiece | undefined {
  if (piece.type === 'arc') {
    const radiusM = piece.radiusM + (piece.angle1Rad >= piece.angle0Rad ? -distanceM : distanceM);
    return radiusM > 0 ? arcAbout(piece.centre, radiusM, piece.angle0Rad, piece.angle1Rad) : undefined;
  }
  const u = directionAlong(piece, 0);
  const dr = -u.yM * distanceM;
  const dy = u.rM * distanceM;
  return lineBetween(
    profilePoint(piece.from.rM + dr, piece.from.yM + dy),
    profilePoint(piece.to.rM + dr, piece.to.yM + dy),
  );
}

/**
 * A whole profile moved by `distanceM` to the left of its walk. Neighbours must be tangent, or both be lines: those are
 * lengthened or cut to their new crossing. Fails, with the reason, where the offset does not exist.
 */
export function offsetProfile(pieces: readonly ProfilePiece[], distanceM: number): Result<ProfilePiece[], string> {
  const moved: ProfilePiece[] = [];
  for (const [i, piece] of pieces.entries()) {
    const next = offsetPiece(piece, distanceM);
    if (!next)
      return fail(
        `piece ${i} has a radius of ${piece.type === 'arc' ? piece.radiusM : 0} m and cannot be offset by ${distanceM} m`,
      );
    moved.push(next);
  }
  for (let i = 0; i + 1 < moved.length; i++) {
    const a = moved[i];
    const b = moved[i + 1];
    if (Math.hypot(a.to.rM - b.from.rM, a.to.yM - b.from.yM) < 1e-9) continue;
    if (a.type !== 'line' || b.type !== 'line')
      return fail(`pieces ${i} and ${i + 1} meet in a corner that is not straight`);
    const u = directionAlong(a, 0);
    const v = directionAlong(b, 0);
    const det = u.rM * v.yM - u.yM * v.rM;
    if (Math.abs(det) < 1e-12) return fail(`pieces ${i} and ${i + 1} double back on each other`);
    const t = ((b.from.rM - a.from.rM) * v.yM - (b.from.yM - a.from.yM) * v.rM) / det;
    if (t <= 0) return fail(`piece ${i} vanishes when offset by ${distanceM} m`);
    const corner = profilePoint(a.from.rM + u.rM * t, a.from.yM + u.yM * t);
    if ((b.to.rM - corner.rM) * v.rM + (b.to.yM - corner.yM) * v.yM <= 0)
      return fail(`piece ${i + 1} vanishes when offset by ${distanceM} m`);
    moved[i] = { ...a, to: corner };
    moved[i + 1] = { ...b, from: corner };
  }
  return ok(joinPieces(moved));
}
