import { type ProfileArc, type ProfilePiece, profilePoint } from './piece.ts';

/** Turns of the arc, strictly between its ends, at which it stands at height yM; in the order of the walk. */
function arcAnglesAtHeight(arc: ProfileArc, yM: number): number[] {
  const s = (yM - arc.centre.yM) / arc.radiusM;
  if (Math.abs(s) >= 1) return []; // touching at the very top or bottom does not cut it
  const lo = Math.min(arc.angle0Rad, arc.angle1Rad);
  const hi = Math.max(arc.angle0Rad, arc.angle1Rad);
  const base = Math.asin(s);
  const angles: number[] = [];
  for (const candidate of [base, Math.PI - base]) {
    const first = candidate + 2 * Math.PI * Math.ceil((lo - candidate) / (2 * Math.PI));
    for (let a = first; a < hi; a += 2 * Math.PI) if (a > lo) angles.push(a);
  }
  return angles.sort((a, b) => (arc.angle1Rad > arc.angle0Rad ? a - b : b - a));
}

/** Cuts one piece where it crosses height yM. The parts share their ends exactly, at exactly yM. */
export function splitPieceAtHeight(piece: ProfilePiece, yM: number): ProfilePiece[] {
  if (piece.type === 'line') {
    const { from, to } = piece;
    if ((from.yM - yM) * (to.yM - yM) >= 0) return [piece];
    const t = (yM - from.yM) / (to.yM - from.yM);
    const cut = profilePoint(from.rM + (to.rM - from.rM) * t, yM);
    return [
      { ...piece, to: cut },
      { ...piece, from: cut },
    ];
  }
  const parts: ProfilePiece[] = [];
  let rest: ProfileArc = piece;
  for (const angle of arcAnglesAtHeight(piece, yM)) {
    const cut = profilePoint(piece.centre.rM + piece.radiusM * Math.cos(angle), yM);
    parts.push({ ...rest, to: cut, angle1Rad: angle });
    rest = { ...rest, from: cut, angle0Rad: angle };
  }
  parts.push(rest);
  return parts;
}

const middleYM = (piece: ProfilePiece): number => {
  if (piece.type === 'line') return (piece.from.yM + piece.to.yM) / 2;
  return piece.centre.yM + piece.radiusM * Math.sin((piece.angle0Rad + piece.angle1Rad) / 2);
};

/** All parts of a profile under and over height yM, each in the order of the walk. */
export function splitProfileAtHeight<P extends { readonly piece: ProfilePiece }>(
  parts: readonly P[],
  yM: number,
): { below: P[]; above: P[] } {
  const below: P[] = [];
  const above: P[] = [];
  for (const part of parts) {
    for (const piece of splitPieceAtHeight(part.piece, yM)) {
      (middleYM(piece) <= yM ? below : above).push({ ...part, piece });
    }
  }
  return { below, above };
}

/** Radii at which a profile stands at height yM, in the order of the walk. A level line counts by both its ends. */
export function radiiAtHeightM(pieces: readonly ProfilePiece[], yM: number): number[] {
  const radii: number[] = [];
  for (const piece of pieces) {
    if (piece.from.yM === yM) radii.push(piece.from.rM);
    if (piece.type === 'line') {
      const { from, to } = piece;
      if ((from.yM - yM) * (to.yM - yM) < 0) {
        radii.push(from.rM + ((to.rM - from.rM) * (yM - from.yM)) / (to.yM - from.yM));
      }
    } else {
      for (const angle of arcAnglesAtHeight(piece, yM)) radii.push(piece.centre.rM + piece.radiusM * Math.cos(angle));
    }
    if (piece.to.yM === yM) radii.push(piece.to.rM);
  }
  return radii;
}

/** Largest radius of a profile at height yM; undefined where it does not reach. */
export function radiusAtHeightM(pieces: readonly ProfilePiece[], yM: number): number | undefined {
  const radii = radiiAtHeightM(pieces, yM);
  return radii.length > 0 ? Math.max(...radii) : undefined;
}
