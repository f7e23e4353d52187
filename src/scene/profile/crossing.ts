import { type ProfileArc, type ProfileLine, type ProfilePiece, type ProfilePoint, pointAlong } from './piece.ts';

/** Crossings nearer than this to an end that two pieces share are the shared end itself. */
const SHARED_END_M = 1e-7;

interface Box {
  readonly loR: number;
  readonly hiR: number;
  readonly loY: number;
  readonly hiY: number;
}

/**
 * Numbers of the first two pieces of a walk that cross or touch other than at the end that neighbours share; undefined
 * when the walk is simple.
 */
export function findSelfCrossing(pieces: readonly ProfilePiece[]): readonly [number, number] | undefined {
  const boxes = pieces.map(boxOfPiece);
  for (let i = 0; i < pieces.length; i++) {
    for (let j = i + 1; j < pieces.length; j++) {
      if (!overlap(boxes[i], boxes[j])) continue;
      const shared = j === i + 1 ? pieces[i].to : undefined;
      const hits = crossPieces(pieces[i], pieces[j]).filter(
        (p) => !shared || Math.hypot(p.rM - shared.rM, p.yM - shared.yM) > SHARED_END_M,
      );
      if (hits.length > 0) return [i, j];
      if (shared && doublesBack(pieces[i], pieces[j])) return [i, j];
    }
  }
  return undefined;
}

/** Two neighbours that run over each other: the second sets out exactly back along the first. */
function doublesBack(a: ProfilePiece, b: ProfilePiece): boolean {
  if (a.type !== 'line' || b.type !== 'line') return false;
  const ur = a.to.rM - a.from.rM;
  const uy = a.to.yM - a.from.yM;
  const vr = b.to.rM - b.from.rM;
  const vy = b.to.yM - b.from.yM;
  const l = Math.hypot(ur, uy) * Math.hypot(vr, vy);
  return Math.abs(ur * vy - uy * vr) < 1e-9 * l && ur * vr + uy * vy < 0;
}

function boxOfPiece(piece: ProfilePiece): Box {
  const points: ProfilePoint[] = [piece.from, piece.to];
  if (piece.type === 'arc') {
    const lo = Math.min(piece.angle0Rad, piece.angle1Rad);
    const hi = Math.max(piece.angle0Rad, piece.angle1Rad);
    const quarter = Math.PI / 2;
    for (let a = Math.ceil(lo / quarter) * quarter; a <= hi; a += quarter)
      points.push({
        rM: piece.centre.rM + piece.radiusM * Math.cos(a),
        yM: piece.centre.yM + piece.radiusM * Math.sin(a),
      });
  }
  return {
    loR: Math.min(...points.map((p) => p.rM)),
    hiR: Math.max(...points.map((p) => p.rM)),
    loY: Math.min(...points.map((p) => p.yM)),
    hiY: Math.max(...points.map((p) => p.yM)),
  };
}

const overlap = (a: Box, b: Box): boolean =>
  a.loR <= b.hiR + SHARED_END_M &&
  b.loR <= a.hiR + SHARED_END_M &&
  a.loY <= b.hiY + SHARED_END_M &&
  b.loY <= a.hiY + SHARED_END_M;

/** Points that two pieces have in common; for two pieces of one line or circle, ends that lie on the other. */
function crossPieces(a: ProfilePiece, b: ProfilePiece): ProfilePoint[] {
  if (a.type === 'line') return b.type === 'line' ? crossLines(a, b) : crossLineArc(a, b);
  return b.type === 'line' ? crossLineArc(b, a) : crossArcs(a, b);
}

function crossLines(a: ProfileLine, b: ProfileLine): ProfilePoint[] {
  const ur = a.to.rM - a.from.rM;
  const uy = a.to.yM - a.from.yM;
  const vr = b.to.rM - b.from.rM;
  const vy = b.to.yM - b.from.yM;
  const wr = b.from.rM - a.from.rM;
  const wy = b.from.yM - a.from.yM;
  const det = ur * vy - uy * vr;
  const l = Math.hypot(ur, uy) * Math.hypot(vr, vy);
  if (Math.abs(det) > 1e-12 * l) {
    const s = (wr * vy - wy * vr) / det;
    const t = (wr * uy - wy * ur) / det;
    return s >= 0 && s <= 1 && t >= 0 && t <= 1 ? [pointAlong(a, s)] : [];
  }
  return [b.from, b.to].filter((p) => isOnLine(a, p)).concat([a.from, a.to].filter((p) => isOnLine(b, p)));
}

function isOnLine(line: ProfileLine, p: ProfilePoint): boolean {
  const ur = line.to.rM - line.from.rM;
  const uy = line.to.yM - line.from.yM;
  const l = Math.hypot(ur, uy);
  const along = ((p.rM - line.from.rM) * ur + (p.yM - line.from.yM) * uy) / l;
  const across = ((p.rM - line.from.rM) * uy - (p.yM - line.from.yM) * ur) / l;
  return Math.abs(across) < 1e-9 && along >= -1e-9 && along <= l + 1e-9;
}

function crossLineArc(line: ProfileLine, arc: ProfileArc): ProfilePoint[] {
  const dr = line.to.rM - line.from.rM;
  const dy = line.to.yM - line.from.yM;
  const fr = line.from.rM - arc.centre.rM;
  const fy = line.from.yM - arc.centre.yM;
  const a = dr * dr + dy * dy;
  const b = fr * dr + fy * dy;
  const disc = b * b - a * (fr * fr + fy * fy - arc.radiusM ** 2);
  if (disc < 0) return [];
  const root = Math.sqrt(disc);
  return [(-b - root) / a, (-b + root) / a]
    .filter((t) => t >= 0 && t <= 1)
    .map((t) => pointAlong(line, t))
    .filter((p) => isOnArc(arc, p));
}

function crossArcs(a: ProfileArc, b: ProfileArc): ProfilePoint[] {
  const dr = b.centre.rM - a.centre.rM;
  const dy = b.centre.yM - a.centre.yM;
  const d = Math.hypot(dr, dy);
  if (d < 1e-12) {
    if (Math.abs(a.radiusM - b.radiusM) > 1e-9) return [];
    return [b.from, b.to].filter((p) => isOnArc(a, p)).concat([a.from, a.to].filter((p) => isOnArc(b, p)));
  }
  const along = (d * d + a.radiusM ** 2 - b.radiusM ** 2) / (2 * d);
  const h2 = a.radiusM ** 2 - along ** 2;
  if (h2 < 0) return [];
  const h = Math.sqrt(h2);
  return [-h, h]
    .map((s) => ({
      rM: a.centre.rM + (dr * along - dy * s) / d,
      yM: a.centre.yM + (dy * along + dr * s) / d,
    }))
    .filter((p) => isOnArc(a, p) && isOnArc(b, p));
}

/** Is a point of the arc's circle within its turn? */
function isOnArc(arc: ProfileArc, p: ProfilePoint): boolean {
  const turn = 2 * Math.PI;
  const lo = Math.min(arc.angle0Rad, arc.angle1Rad);
  let past = (Math.atan2(p.yM - arc.centre.yM, p.rM - arc.centre.rM) - lo) % turn;
  if (past < 0) past += turn;
  const slack = 1e-9 / arc.radiusM;
  return past <= Math.abs(arc.angle1Rad - arc.angle0Rad) + slack || past >= turn - slack;
}
