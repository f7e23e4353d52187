import { compose, type RigidTransform, translation } from '../../../core/rigid.ts';
import { type Built, builtOf, leftOut } from '../../built.ts';
import { BOARD_LIFT_M } from '../../clearances.ts';
import type { DressingOf } from '../../dressingRecords.ts';
import { cannotMake, inMm } from '../../problems.ts';
import {
  arcAbout,
  joinPieces,
  lineBetween,
  type ProfilePiece,
  profilePoint,
  roundCorner,
} from '../../profile/index.ts';
import { discProfile } from '../plinthCylinder.ts';
import { buildSolid } from '../solid.ts';
import { type LoopPart, roundedLoopSides } from './roundedLoop.ts';
import { boxSides, dressSides, quadSide, type Side } from './side.ts';

/** Flat disc or square with rounded edges and corners. */
export function buildCoaster(piece: DressingOf<'coaster'>, placement: RigidTransform): Built {
  const { widthM, edgeRadiusM } = piece;
  const heightM = piece.thicknessM - BOARD_LIFT_M;
  // The corner, seen from above, is never tighter than the rounding of the edge.
  const cornerM = piece.shape === 'round' ? widthM / 2 : Math.max(piece.cornerRadiusM, edgeRadiusM, 0.0005);
  const most = Math.min(heightM, widthM) / 2;
  if (edgeRadiusM > most) {
    return leftOut([
      cannotMake(
        piece.id,
        'edge-rounding-too-large',
        'edgeRadiusM',
        edgeRadiusM,
        `edgeRadiusM is more than half the thickness: keep it under ${inMm(most)}.`,
      ),
    ]);
  }
  if (cornerM > widthM / 2) {
    return leftOut([
      cannotMake(
        piece.id,
        'corner-too-round',
        'cornerRadiusM',
        piece.cornerRadiusM,
        `cornerRadiusM is more than half the width: keep it at ${inMm(widthM / 2)} or less, or make it round.`,
      ),
    ]);
  }
  const half = widthM / 2 - cornerM;
  const frame = compose(placement, translation([0, BOARD_LIFT_M, 0]));
  const parts: LoopPart[] = discProfile(cornerM, heightM, edgeRadiusM);
  return buildSolid(piece.id, roundedLoopSides(parts, { halfXM: half, halfZM: half }, frame), piece);
}

/** Round or rectangular tray: flat floor, upright wall with a half-round rim, rounded inside and out. */
export function buildTray(piece: DressingOf<'tray'>, placement: RigidTransform): Built {
  const { widthM, wallM, floorM } = piece;
  const depthM = piece.shape === 'round' ? widthM : piece.depthM;
  const heightM = piece.heightM - BOARD_LIFT_M;
  const least = Math.min(widthM, depthM);
  const cornerM = piece.shape === 'round' ? widthM / 2 : Math.max(piece.cornerRadiusM, wallM * 1.5);
  if (cornerM > least / 2) {
    return leftOut([
      cannotMake(
        piece.id,
        'corner-too-round',
        'cornerRadiusM',
        piece.cornerRadiusM,
        `The corners are rounder than the tray is wide: keep cornerRadiusM at ${inMm(least / 2)} or less and wallM thin.`,
      ),
    ]);
  }
  if (heightM <= floorM + wallM) {
    return leftOut([
      cannotMake(
        piece.id,
        'tray-too-low',
        'heightM',
        piece.heightM,
        `heightM leaves no wall over the floor: make it more than ${inMm(floorM + wallM + BOARD_LIFT_M)}.`,
      ),
    ]);
  }
  const core = { halfXM: widthM / 2 - cornerM, halfZM: depthM / 2 - cornerM };
  const frame = compose(placement, translation([0, BOARD_LIFT_M, 0]));
  return buildSolid(piece.id, roundedLoopSides(trayProfile(cornerM, heightM, wallM, floorM), core, frame), piece);
}

/** Walked out along the underside, up, over the rim, down inside and in along the floor. */
function trayProfile(outerM: number, heightM: number, wallM: number, floorM: number): LoopPart[] {
  const innerM = outerM - wallM;
  const rimYM = heightM - wallM / 2;
  const under = profilePoint(0, 0);
  const low = profilePoint(outerM, 0);
  const shoulder = profilePoint(outerM, rimYM);
  const innerTop = profilePoint(innerM, rimYM);
  const innerLow = profilePoint(innerM, floorM);
  const centre = profilePoint(0, floorM);
  const foot = roundCorner(under, low, shoulder, Math.min(wallM * 0.5, rimYM / 2));
  const fillet = roundCorner(innerTop, innerLow, centre, Math.min(wallM * 0.4, (rimYM - floorM) / 2, innerM / 2));
  const named: [string, ProfilePiece][] = [
    ['underside', lineBetween(under, foot.from)],
    ['foot edge', foot],
    ['outside', lineBetween(foot.to, shoulder)],
    ['rim', arcAbout(profilePoint(outerM - wallM / 2, rimYM), wallM / 2, 0, Math.PI)],
    ['inside', lineBetween(innerTop, fillet.from)],
    ['fillet', fillet],
    ['floor', lineBetween(fillet.to, centre)],
  ];
  return joinPieces(named.map(([, piece]) => piece)).map((piece, i) => ({ role: named[i][0], piece }));
}

/** Translucent sheet in an opaque rim on four walls, open below. Walls and rim are thin and act on both sides. */
export function buildLightTable(piece: DressingOf<'lightTable'>, placement: RigidTransform): Built {
  const { widthM, depthM, heightM, rimM } = piece;
  if (2 * rimM >= Math.min(widthM, depthM)) {
    return leftOut([
      cannotMake(
        piece.id,
        'rim-too-wide',
        'rimM',
        rimM,
        `rimM leaves no sheet: keep it under ${inMm(Math.min(widthM, depthM) / 2)}.`,
      ),
    ]);
  }
  const x = widthM / 2;
  const z = depthM / 2;
  const wallM = heightM - BOARD_LIFT_M;
  const wide = widthM - 2 * rimM;
  const deep = depthM - 2 * rimM;
  const frame: Side[] = [
    quadSide('rim front', [-x, heightM, z], [widthM, 0, 0], [0, 0, -rimM], placement),
    quadSide('rim back', [-x, heightM, -z + rimM], [widthM, 0, 0], [0, 0, -rimM], placement),
    quadSide('rim left', [-x, heightM, z - rimM], [rimM, 0, 0], [0, 0, -deep], placement),
    quadSide('rim right', [x - rimM, heightM, z - rimM], [rimM, 0, 0], [0, 0, -deep], placement),
    quadSide('wall front', [-x, BOARD_LIFT_M, z], [widthM, 0, 0], [0, wallM, 0], placement),
    quadSide('wall back', [x, BOARD_LIFT_M, -z], [-widthM, 0, 0], [0, wallM, 0], placement),
    quadSide('wall left', [-x, BOARD_LIFT_M, -z], [0, 0, depthM], [0, wallM, 0], placement),
    quadSide('wall right', [x, BOARD_LIFT_M, z], [0, 0, -depthM], [0, wallM, 0], placement),
  ];
  const sheet = quadSide('sheet', [-x + rimM, heightM, z - rimM], [wide, 0, 0], [0, 0, -deep], placement);
  return builtOf([
    { recordId: piece.id, ...sheet, finish: piece.finish, secondarySource: true },
    ...dressSides(piece.id, frame, piece.frameFinish),
  ]);
}

/** Cream book paper. Invented. */
const PAGES = { type: 'matte', reflectanceRgb: [0.74, 0.69, 0.58] } as const;
const BOOK_GAP_M = 0.0001;

/** Two boards, a spine and a block of pages, each a closed box a tenth of a millimetre from the next. */
export function buildBook(piece: DressingOf<'book'>, placement: RigidTransform): Built {
  const { widthM, depthM, thicknessM, coverM } = piece;
  const low = BOARD_LIFT_M;
  const pagesM = thicknessM - low - 2 * coverM - 2 * BOOK_GAP_M;
  const overhangM = Math.min(0.003, widthM / 12, depthM / 12);
  const block = widthM - coverM - overhangM - BOOK_GAP_M;
  if (pagesM <= 0 || block <= 0) {
    return leftOut([
      cannotMake(
        piece.id,
        'cover-too-thick',
        'coverM',
        coverM,
        'The covers leave no room for pages: make coverM thinner or the book larger.',
      ),
    ]);
  }
  const x = widthM / 2;
  const z = depthM / 2;
  const top = thicknessM;
  const cover = [
    ...boxSides('lower board', [-x, low, -z], [x, low + coverM, z], placement),
    ...boxSides('upper board', [-x, top - coverM, -z], [x, top, z], placement),
    ...boxSides('spine', [-x, low + coverM + BOOK_GAP_M, -z], [-x + coverM, top - coverM - BOOK_GAP_M, z], placement),
  ];
  const pages = boxSides(
    'pages',
    [-x + coverM + BOOK_GAP_M, low + coverM + BOOK_GAP_M, -z + overhangM],
    [x - overhangM, top - coverM - BOOK_GAP_M, z - overhangM],
    placement,
  );
  return builtOf([
    ...dressSides(piece.id, cover, piece.finish),
    ...dressSides(piece.id, pages, { type: 'matte', reflectanceRgb: [...PAGES.reflectanceRgb] }),
  ]);
}
