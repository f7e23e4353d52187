import type { Finish } from '../materials/finish.ts';
import { defaultDressing } from './dressingDefaults.ts';
import { defaultGarnish, defaultGlassProfile, GLASS_NAMES, type GlassShape } from './glassDefaults.ts';
import { DRESSING_KINDS, isDressingKind, type Piece, type PieceKind, type Turntable } from './records.ts';

export * from './glassDefaults.ts';

export const PIECE_KINDS = [
  'glass',
  'garnish',
  'tabletop',
  'sheet',
  'sweep',
  'plinthBox',
  'plinthCylinder',
  'wall',
  ...DRESSING_KINDS,
] as const satisfies readonly PieceKind[];

const WHITE_PAPER: Finish = { type: 'matte', reflectanceRgb: [0.82, 0.82, 0.8] };
const BLACK_ACRYLIC: Finish = { type: 'gloss', reflectanceRgb: [0.01, 0.01, 0.01], coatIndex: 1.49, roughness: 0 };
const GREY_BOARD: Finish = { type: 'matte', reflectanceRgb: [0.18, 0.18, 0.18] };
const PALE_WOOD: Finish = { type: 'gloss', reflectanceRgb: [0.45, 0.32, 0.2], coatIndex: 1.5, roughness: 0.25 };

/** A glass of generic size, empty, at the origin. */
export const defaultGlass = (shape: GlassShape, id: string): Piece => ({
  id,
  name: GLASS_NAMES[shape],
  kind: 'glass',
  positionM: [0, 0, 0],
  headingDeg: 0,
  profile: defaultGlassProfile(shape),
  glassIndex: 1.52,
  glassAbsorptionPerM: [2, 0.8, 1.6],
});

/** A sensible new record of each kind, where one would first put it. */
export function defaultPiece(kind: PieceKind, id: string): Piece {
  if (isDressingKind(kind)) return defaultDressing(kind, id);
  const common = { id, headingDeg: 0, positionM: [0, 0, 0] as [number, number, number] };
  switch (kind) {
    case 'glass':
      return { ...defaultGlass('highball', id), ...common };
    case 'garnish':
      return { ...common, kind, name: 'Lemon wheel', item: defaultGarnish('citrusWheel') };
    case 'tabletop':
      return {
        ...common,
        kind,
        name: 'Table top',
        widthM: 1.2,
        depthM: 0.8,
        thicknessM: 0.03,
        finish: PALE_WOOD,
        clearIndex: 1.49,
      };
    case 'sheet':
      return {
        ...common,
        kind,
        name: 'Gloss black acrylic',
        widthM: 0.6,
        depthM: 0.6,
        thicknessM: 0.005,
        edgeRadiusM: 0.0005,
        finish: BLACK_ACRYLIC,
        clearIndex: 1.49,
      };
    case 'sweep':
      return {
        ...common,
        kind,
        name: 'Paper sweep',
        positionM: [0, 0, 0.5],
        widthM: 1.35,
        floorDepthM: 0.9,
        coveRadiusM: 0.25,
        heightM: 1.1,
        finish: WHITE_PAPER,
      };
    case 'plinthBox':
      return {
        ...common,
        kind,
        name: 'Plinth',
        widthM: 0.14,
        depthM: 0.14,
        heightM: 0.06,
        edgeRadiusM: 0.001,
        finish: GREY_BOARD,
        clearIndex: 1.49,
      };
    case 'plinthCylinder':
      return {
        ...common,
        kind,
        name: 'Round plinth',
        diameterM: 0.14,
        heightM: 0.05,
        edgeRadiusM: 0.001,
        finish: GREY_BOARD,
        clearIndex: 1.49,
      };
    case 'wall':
      return {
        ...common,
        kind,
        name: 'Wall',
        positionM: [0, 0, -0.8],
        widthM: 2,
        heightM: 1.5,
        thicknessM: 0.02,
        finish: { type: 'matte', reflectanceRgb: [0.55, 0.53, 0.5] },
        clearIndex: 1.49,
      };
  }
}

export const defaultTurntable = (): Turntable => ({
  centreM: [0, 0.02, 0],
  diameterM: 0.25,
  thicknessM: 0.02,
  rpm: 6,
  runOutM: 0,
  carries: [],
});
