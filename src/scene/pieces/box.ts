import { compose, type RigidTransform, translation } from '../../core/rigid.ts';
import { type Built, leftOut } from '../built.ts';
import { BOARD_LIFT_M } from '../clearances.ts';
import { cannotMake, inMm } from '../problems.ts';
import type { Piece } from '../records.ts';
import { buildRoundedBox } from '../roundedBox.ts';
import { buildSolid } from './solid.ts';

type BoxPiece = Extract<Piece, { kind: 'tabletop' | 'sheet' | 'plinthBox' | 'wall' }>;

/**
 * Table top, sheet, box plinth and wall: closed boxes. Those that lie or stand on something have their underside
 * BOARD_LIFT_M over it, with the top still at the height that the record says.
 */
export function buildBoxPiece(piece: BoxPiece, placement: RigidTransform): Built {
  const box = boxOf(piece);
  const radiusM = piece.kind === 'sheet' || piece.kind === 'plinthBox' ? piece.edgeRadiusM : 0;
  const most = Math.min(box.widthM, box.topYM - box.underYM, box.depthM) / 2;
  if (radiusM > most) {
    return leftOut([
      cannotMake(
        piece.id,
        'edge-rounding-too-large',
        'edgeRadiusM',
        radiusM,
        `edgeRadiusM is more than half the least size of the piece: keep it under ${inMm(most)}.`,
      ),
    ]);
  }
  const centre = translation([0, (box.topYM + box.underYM) / 2, box.centreZM]);
  const sides = buildRoundedBox(
    [box.widthM / 2, (box.topYM - box.underYM) / 2, box.depthM / 2],
    radiusM,
    compose(placement, centre),
  );
  return buildSolid(piece.id, sides, piece);
}

interface BoxSizes {
  readonly widthM: number;
  readonly depthM: number;
  readonly underYM: number;
  readonly topYM: number;
  readonly centreZM: number;
}

export function boxOf(piece: BoxPiece): BoxSizes {
  switch (piece.kind) {
    case 'tabletop':
      return { widthM: piece.widthM, depthM: piece.depthM, underYM: -piece.thicknessM, topYM: 0, centreZM: 0 };
    case 'sheet':
      return {
        widthM: piece.widthM,
        depthM: piece.depthM,
        underYM: BOARD_LIFT_M,
        topYM: piece.thicknessM,
        centreZM: 0,
      };
    case 'plinthBox':
      return { widthM: piece.widthM, depthM: piece.depthM, underYM: BOARD_LIFT_M, topYM: piece.heightM, centreZM: 0 };
    case 'wall':
      return {
        widthM: piece.widthM,
        depthM: piece.thicknessM,
        underYM: BOARD_LIFT_M,
        topYM: piece.heightM,
        centreZM: -piece.thicknessM / 2,
      };
  }
}
