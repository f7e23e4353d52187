import { compose, type RigidTransform } from '../../core/rigid.ts';
import type { Built } from '../built.ts';
import { BOARD_LIFT_M } from '../clearances.ts';
import { surfacesOfGarnish } from '../garnish/garnishPart.ts';
import { garnishOnTable } from '../garnish/lieOnTable.ts';
import type { Piece } from '../records.ts';

export type GarnishPiece = Extract<Piece, { kind: 'garnish' }>;

/** Fruit, leaves or small wares by themselves, BOARD_LIFT_M over what they lie on. */
export function buildGarnishPiece(piece: GarnishPiece, placement: RigidTransform): Built {
  const parts = garnishOnTable(piece.item, BOARD_LIFT_M).map((part) => ({
    ...part,
    worldFromLocal: compose(placement, part.worldFromLocal),
  }));
  return { ...surfacesOfGarnish(piece.id, 'garnish', parts), diagnostics: [] };
}
