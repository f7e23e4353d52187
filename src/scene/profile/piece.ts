import { invariant } from '../../core/result.ts';
import type { RevolvedArcShape, RevolvedLineShape } from '../../core/shape.ts';

/**
 * Profiles in the (r, y) half-plane, metres. A piece is walked from `from` to `to`; the front of the surface that it
 * turns into is on the right hand of the walk, so a solid walked counter-clockwise has its normals outward.
 */
export interface ProfilePoint {
  readonly rM: number;
  readonly yM: number;
}

export interface ProfileLine {
  readonly type: 'line';
  readonly from: ProfilePoint;
  readonly to: ProfilePoint;
}

/** Points (centre + radius (cos a, sin a)) for a from angle0Rad to angle1Rad, counter-clockwise when angle1 > angle0. */
export interface ProfileArc {
  readonly type: 'arc';
  readonly from: ProfilePoint;
  readonly to: ProfilePoint;
  readonly centre: ProfilePoint;
  readonly radiusM: number;
  readonly angle0Rad: number;
  readonly angle1Rad: number;
}

export type ProfilePiece = ProfileLine | ProfileArc;

/** Radii below this are the axis itself: rounding of cos(90 degrees) must not open a pinhole there. */
const AXIS_SNAP_M = 1e-12;
/** Ends of neighbouring pieces that differ by more than this were never meant to meet. */
const JOINT_SLACK_M = 1e-8;

export const profilePoint = (rM: number, yM: number): ProfilePoint => ({ rM: Math.abs(rM) < AXIS_SNAP_M ? 0 : rM, yM });

export const lineBetween = (from: ProfilePoint, to: ProfilePoint): ProfileLine => ({ type: 'line', from, to });

export const pointOnCircle = (centre: ProfilePoint, radiusM: number, angleRad: number): ProfilePoint =>
  profilePoint(centre.rM + radiusM * Math.cos(angleRad), centre.yM + radiusM * Math.sin(angleRad));

export const arcAbout = (centre: ProfilePoint, radiusM: number, angle0Rad: number, angle1Rad: number): ProfileArc => ({
  type: 'arc',
  from: pointOnCircle(centre, radiusM, angle0Rad),
  to: pointOnCircle(centre, radiusM, angle1Rad),
  centre,
  radiusM,
  angle0Rad,
  angle1Rad,
});

/** The same piece walked the other way. */
export const reversePiece = (piece: ProfilePiece): ProfilePiece =>
  piece.type === 'line'
    ? { ...piece, from: piece.to, to: piece.from }
    : { ...piece, from: piece.to, to: piece.from, angle0Rad: piece.angle1Rad, angle1Rad: piece.angle0Rad };

export const reverseProfile = (pieces: readonly ProfilePiece[]): ProfilePiece[] =>
  [...pieces].reverse().map(reversePiece);

/** Point at t in 0..1 along the walk. */
export function pointAlong(piece: ProfilePiece, t: number): ProfilePoint {
  if (t <= 0) return piece.from;
  if (t >= 1) return piece.to;
  if (piece.type === 'line') {
    return profilePoint(
      piece.from.rM + (piece.to.rM - piece.from.rM) * t,
      piece.from.yM + (piece.to.yM - piece.from.yM) * t,
    );
  }
  return pointOnCircle(piece.centre, piece.radiusM, piece.angle0Rad + (piece.angle1Rad - piece.angle0Rad) * t);
}

/** Unit direction of the walk at t in 0..1. */
export function directionAlong(piece: ProfilePiece, t: number): ProfilePoint {
  if (piece.type === 'line') {
    const dr = piece.to.rM - piece.from.rM;
    const dy = piece.to.yM - piece.from.yM;
    const l = Math.hypot(dr, dy);
    return { rM: dr / l, yM: dy / l };
  }
  const a = piece.angle0Rad + (piece.angle1Rad - piece.angle0Rad) * t;
  const sign = piece.angle1Rad >= piece.angle0Rad ? 1 : -1;
  return { rM: -Math.sin(a) * sign, yM: Math.cos(a) * sign };
}

export const pieceLengthM = (piece: ProfilePiece): number =>
  piece.type === 'line'
    ? Math.hypot(piece.to.rM - piece.from.rM, piece.to.yM - piece.from.yM)
    : piece.radiusM * Math.abs(piece.angle1Rad - piece.angle0Rad);

export const profileLengthM = (pieces: readonly ProfilePiece[]): number =>
  pieces.reduce((sum, piece) => sum + pieceLengthM(piece), 0);

/**
 * Gives neighbouring pieces one and the same end point, so that the surfaces they turn into leave no gap. Where an
 * arc meets a line the point of the arc is kept (its end follows from its centre, radius and angle). Pieces of no
 * length are dropped.
 */
export function joinPieces<P extends ProfilePiece>(pieces: readonly P[]): P[] {
  const kept = pieces.filter((piece) => pieceLengthM(piece) > 1e-10).map((piece) => ({ ...piece }));
  for (let i = 0; i + 1 < kept.length; i++) {
    const a = kept[i];
    const b = kept[i + 1];
    const gap = Math.hypot(a.to.rM - b.from.rM, a.to.yM - b.from.yM);
    invariant(gap < JOINT_SLACK_M, () => `profile pieces ${i} and ${i + 1} are ${gap} m apart`);
    const joint = a.type === 'arc' ? a.to : b.from;
    kept[i] = { ...a, to: joint };
    kept[i + 1] = { ...b, from: joint };
  }
  return kept;
}

/** The exact surface of revolution of one piece. */
export function shapeFromPiece(piece: ProfilePiece): RevolvedLineShape | RevolvedArcShape {
  if (piece.type === 'line') {
    return { type: 'revolvedLine', r0M: piece.from.rM, y0M: piece.from.yM, r1M: piece.to.rM, y1M: piece.to.yM };
  }
  return {
    type: 'revolvedArc',
    centreRM: piece.centre.rM,
    centreYM: piece.centre.yM,
    radiusM: piece.radiusM,
    angle0Rad: piece.angle0Rad,
    angle1Rad: piece.angle1Rad,
  };
}
