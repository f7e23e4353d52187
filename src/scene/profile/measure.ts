import { type ProfilePiece, type ProfilePoint, pointAlong } from './piece.ts';

/**
 * Volume swept by the region between a profile and the axis: pi x integral of r^2 dy along the walk, in closed form for
 * lines (frustum) and arcs. A closed profile walked counter-clockwise gives the solid's volume; parts on the axis add
 * nothing. For the arc r = c + R cos a, y = Y + R sin a:
 * integral r^2 dy = R [c^2 sin a + c R (a + sin a cos a) + R^2 (sin a - sin^3 a / 3)].
 */
export function revolvedVolumeM3(pieces: readonly ProfilePiece[]): number {
  let sum = 0;
  for (const piece of pieces) {
    if (piece.type === 'line') {
      const { from, to } = piece;
      sum += ((to.yM - from.yM) * (from.rM * from.rM + from.rM * to.rM + to.rM * to.rM)) / 3;
    } else {
      const c = piece.centre.rM;
      const radius = piece.radiusM;
      const antiderivative = (a: number) => {
        const s = Math.sin(a);
        return radius * (c * c * s + c * radius * (a + s * Math.cos(a)) + radius * radius * (s - (s * s * s) / 3));
      };
      sum += antiderivative(piece.angle1Rad) - antiderivative(piece.angle0Rad);
    }
  }
  return Math.PI * sum;
}

/** Shortest distance from a point of the half-plane to a piece. */
export function distanceToPieceM(piece: ProfilePiece, p: ProfilePoint): number {
  if (piece.type === 'line') {
    const dr = piece.to.rM - piece.from.rM;
    const dy = piece.to.yM - piece.from.yM;
    const l2 = dr * dr + dy * dy;
    const t = Math.max(0, Math.min(1, ((p.rM - piece.from.rM) * dr + (p.yM - piece.from.yM) * dy) / l2));
    return Math.hypot(p.rM - piece.from.rM - dr * t, p.yM - piece.from.yM - dy * t);
  }
  const vr = p.rM - piece.centre.rM;
  const vy = p.yM - piece.centre.yM;
  const lo = Math.min(piece.angle0Rad, piece.angle1Rad);
  const span = Math.abs(piece.angle1Rad - piece.angle0Rad);
  let turn = (Math.atan2(vy, vr) - lo) % (2 * Math.PI);
  if (turn < 0) turn += 2 * Math.PI;
  if (turn <= span) return Math.abs(Math.hypot(vr, vy) - piece.radiusM);
  return Math.min(
    Math.hypot(p.rM - piece.from.rM, p.yM - piece.from.yM),
    Math.hypot(p.rM - piece.to.rM, p.yM - piece.to.yM),
  );
}

export const distanceToProfileM = (pieces: readonly ProfilePiece[], p: ProfilePoint): number =>
  pieces.reduce((least, piece) => Math.min(least, distanceToPieceM(piece, p)), Number.POSITIVE_INFINITY);

/** Least distance from points spread along one profile to another: the thinnest wall between them, to the spacing. */
export function leastGapM(along: readonly ProfilePiece[], other: readonly ProfilePiece[], perPiece = 24): number {
  let least = Number.POSITIVE_INFINITY;
  for (const piece of along) {
    for (let i = 0; i <= perPiece; i++)
      least = Math.min(least, distanceToProfileM(other, pointAlong(piece, i / perPiece)));
  }
  return least;
}
