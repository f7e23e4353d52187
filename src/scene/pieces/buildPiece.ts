import type { RigidTransform } from '../../core/rigid.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import type { Built } from '../built.ts';
import { isDressing, type Piece } from '../records.ts';
import { buildBoxPiece } from './box.ts';
import { buildDressing } from './dressing/buildDressing.ts';
import { buildGarnishPiece } from './garnish.ts';
import { buildGlassPiece } from './glass.ts';
import { buildPlinthCylinder } from './plinthCylinder.ts';
import { buildSweep } from './sweep.ts';

/** Surfaces and volumes of one piece, placed in the world. Sizes that can't be made give diagnostics and no surfaces. */
export function buildPiece(piece: Piece, placement: RigidTransform): Built {
  const built = buildSurfaces(piece, placement);
  return { ...built, surfaces: built.surfaces.map((surface) => withPatternFrame(surface, placement)) };
}

/** A pattern lies in the frame of the whole piece. */
const withPatternFrame = (surface: OpticalSurface, placement: RigidTransform): OpticalSurface =>
  'pattern' in surface.finish ||
  'picture' in surface.finish ||
  'dust' in surface.finish ||
  'scratches' in surface.finish
    ? { ...surface, patternFrame: placement }
    : surface;

function buildSurfaces(piece: Piece, placement: RigidTransform): Built {
  if (isDressing(piece)) return buildDressing(piece, placement);
  switch (piece.kind) {
    case 'glass':
      return buildGlassPiece(piece, placement);
    case 'garnish':
      return buildGarnishPiece(piece, placement);
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
