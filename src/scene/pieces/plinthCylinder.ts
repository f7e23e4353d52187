import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import { type Built, leftOut } from '../built.ts';
import { BOARD_LIFT_M } from '../clearances.ts';
import { cannotMake, inMm } from '../problems.ts';
import {
  joinPieces,
  lineBetween,
  type ProfilePiece,
  pieceLengthM,
  profilePoint,
  roundCorner,
  shapeFromPiece,
} from '../profile/index.ts';
import type { Piece } from '../records.ts';
import { buildSolid } from './solid.ts';

export interface DiscPart {
  readonly role: 'underside' | 'lower edge' | 'side' | 'upper edge' | 'top';
  readonly piece: ProfilePiece;
}

/** Closed profile of a round block from height 0 to `heightM`, both edges rounded by `edgeRadiusM`. */
export function discProfile(radiusM: number, heightM: number, edgeRadiusM: number): DiscPart[] {
  const under = profilePoint(0, 0);
  const low = profilePoint(radiusM, 0);
  const high = profilePoint(radiusM, heightM);
  const over = profilePoint(0, heightM);
  if (edgeRadiusM === 0) {
    return [
      { role: 'underside', piece: lineBetween(under, low) },
      { role: 'side', piece: lineBetween(low, high) },
      { role: 'top', piece: lineBetween(high, over) },
    ];
  }
  const lower = roundCorner(under, low, high, edgeRadiusM);
  const upper = roundCorner(low, high, over, edgeRadiusM);
  const roles = ['underside', 'lower edge', 'side', 'upper edge', 'top'] as const;
  const pieces = [
    lineBetween(under, lower.from),
    lower,
    lineBetween(lower.to, upper.from),
    upper,
    lineBetween(upper.to, over),
  ];
  const kept = pieces.map((piece, i) => ({ role: roles[i], piece })).filter((p) => pieceLengthM(p.piece) > 1e-10);
  return joinPieces(kept.map((p) => p.piece)).map((piece, i) => ({ role: kept[i].role, piece }));
}

type PlinthCylinder = Extract<Piece, { kind: 'plinthCylinder' }>;

/** Round plinth. Its underside is BOARD_LIFT_M over what it stands on, its top at heightM. */
export function buildPlinthCylinder(piece: PlinthCylinder, placement: RigidTransform): Built {
  const heightM = piece.heightM - BOARD_LIFT_M;
  const most = Math.min(piece.diameterM, heightM) / 2;
  if (piece.edgeRadiusM > most) {
    return leftOut([
      cannotMake(
        piece.id,
        'edge-rounding-too-large',
        'edgeRadiusM',
        piece.edgeRadiusM,
        `edgeRadiusM is more than half the least size of the plinth: keep it under ${inMm(most)}.`,
      ),
    ]);
  }
  const worldFromLocal = compose(placement, translation([0, BOARD_LIFT_M, 0]));
  const sides = discProfile(piece.diameterM / 2, heightM, piece.edgeRadiusM).map((p) => ({
    role: p.role,
    shape: shapeFromPiece(p.piece),
    worldFromLocal,
  }));
  return buildSolid(piece.id, sides, piece);
}
