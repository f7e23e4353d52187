import type { RigidTransform } from '../../../core/rigid.ts';
import type { Built } from '../../built.ts';
import type { DressingPiece } from '../../dressingRecords.ts';
import { buildOwnShape } from '../../ownShape/buildOwnShape.ts';
import { buildArch, buildSphere, buildStep } from './blocks.ts';
import { buildGreyCard, buildGreyRamp } from './cards.ts';
import { buildNapkin } from './cloth.ts';
import { buildDappleCutter, buildWindowCutter } from './cutters.ts';
import { buildBranch, buildPlant } from './plants.ts';
import { buildReedScreen, buildSlatScreen } from './screens.ts';
import { buildSpoon } from './spoon.ts';
import { buildBook, buildCoaster, buildLightTable, buildTray } from './vessels.ts';
import { buildMouldedWall, buildSlattedWall } from './walls.ts';

/** Surfaces of a piece of set dressing in the world. Sizes that can't be made give diagnostics and no surfaces. */
export function buildDressing(piece: DressingPiece, placement: RigidTransform): Built {
  switch (piece.kind) {
    case 'step':
      return buildStep(piece, placement);
    case 'arch':
      return buildArch(piece, placement);
    case 'sphere':
      return buildSphere(piece, placement);
    case 'slattedWall':
      return buildSlattedWall(piece, placement);
    case 'mouldedWall':
      return buildMouldedWall(piece, placement);
    case 'reedScreen':
      return buildReedScreen(piece, placement);
    case 'slatScreen':
      return buildSlatScreen(piece, placement);
    case 'windowCutter':
      return buildWindowCutter(piece, placement);
    case 'dappleCutter':
      return buildDappleCutter(piece, placement);
    case 'lightTable':
      return buildLightTable(piece, placement);
    case 'coaster':
      return buildCoaster(piece, placement);
    case 'tray':
      return buildTray(piece, placement);
    case 'napkin':
      return buildNapkin(piece, placement);
    case 'spoon':
      return buildSpoon(piece, placement);
    case 'book':
      return buildBook(piece, placement);
    case 'branch':
      return buildBranch(piece, placement);
    case 'plant':
      return buildPlant(piece, placement);
    case 'greyCard':
      return buildGreyCard(piece, placement);
    case 'greyRamp':
      return buildGreyRamp(piece, placement);
    case 'ownShape':
      return buildOwnShape(piece, placement);
  }
}
