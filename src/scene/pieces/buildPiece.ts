import type { RigidTransform } from '../../core/rigid.ts';
import type { Built } from '../built.ts';
import type { Piece } from '../records.ts';
import { buildBoxPiece } from './box.ts';
import { buildGlassPiece } from './glass.ts';
import { buildPlinthCylinder } from './plinthCylinder.ts';
import { buildSweep } from './sweep.ts';

/** Surfaces and volumes of one piece, placed in the world. Sizes that can't be made give diagnostics and no surfaces. */
export function buildPiece(piece: Piece, placement: RigidTransform): Built {
  switch (piece.kind) {
    case 'glass':
      return buildGlassPiece(piece, placement);
    case 'tabletop':
    case 'sheet':
    case 'plinthBox':
    case 'wall':
      return buildBoxPiece(piece, placement);
    case 'sweep':
      return buildSweep(piece, placement);
    case 'plinthCylinder':
      return buildPlinthCylinder(piece, placement);
  }
}
