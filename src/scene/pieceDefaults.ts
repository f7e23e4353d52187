import type { Finish } from '../materials/finish.ts';
import { defaultDressing } from './dressingDefaults.ts';
import {
  DRESSING_KINDS,
  type Drink,
  type GlassProfile,
  type Ice,
  isDressingKind,
  type Piece,
  type PieceKind,
  type Turntable,
} from './records.ts';

export type GlassShape = GlassProfile['shape'];
export const GLASS_SHAPES = ['highball', 'tumbler', 'coupe', 'conicalStemmed', 'flute', 'wine', 'bottle'] as const;
export const PIECE_KINDS = [
  'glass',
  'tabletop',
  'sheet',
  'sweep',
  'plinthBox',
  'plinthCylinder',
  'wall',
  ...DRESSING_KINDS,
] as const satisfies readonly PieceKind[];

/** Generic sizes of each shape of glass, metres. Typical of the trade, no source. */
export function defaultGlassProfile(shape: GlassShape): GlassProfile {
  const stem = { stemDiameterM: 0.008, footThicknessM: 0.003 };
  switch (shape) {
    case 'highball':
      return tumbler(shape, { heightM: 0.14, rimDiameterM: 0.064, baseDiameterM: 0.06, baseThicknessM: 0.01 });
    case 'tumbler':
      return tumbler(shape, { heightM: 0.09, rimDiameterM: 0.084, baseDiameterM: 0.078, baseThicknessM: 0.014 });
    case 'coupe':
      return {
        shape,
        ...stem,
        heightM: 0.145,
        rimDiameterM: 0.098,
        bowlHeightM: 0.058,
        wallM: 0.0013,
        baseThicknessM: 0.008,
        footDiameterM: 0.07,
      };
    case 'conicalStemmed':
      return {
        shape,
        ...stem,
        heightM: 0.17,
        rimDiameterM: 0.11,
        bowlHeightM: 0.078,
        wallM: 0.0014,
        baseThicknessM: 0.009,
        footDiameterM: 0.075,
      };
    case 'flute':
      return {
        shape,
        ...stem,
        heightM: 0.225,
        rimDiameterM: 0.05,
        bowlDiameterM: 0.058,
        bowlHeightM: 0.145,
        wallM: 0.0012,
        baseThicknessM: 0.008,
        footDiameterM: 0.066,
      };
    case 'wine':
      return {
        shape,
        ...stem,
        heightM: 0.215,
        rimDiameterM: 0.066,
        bowlDiameterM: 0.084,
        bowlHeightM: 0.115,
        wallM: 0.0012,
        baseThicknessM: 0.007,
        footDiameterM: 0.076,
      };
    case 'bottle':
      return {
        shape,
        heightM: 0.23,
        bodyDiameterM: 0.06,
        shoulderHeightM: 0.125,
        neckDiameterM: 0.027,
        neckHeightM: 0.045,
        wallM: 0.003,
        baseThicknessM: 0.006,
      };
  }
}

const tumbler = (
  shape: 'highball' | 'tumbler',
  sizes: { heightM: number; rimDiameterM: number; baseDiameterM: number; baseThicknessM: number },
): GlassProfile => ({ shape, ...sizes, wallM: 0.0016, footRadiusM: 0.003, floorFilletM: 0.004, rim: 'rounded' });

/** Water: the liquid to start from. Index at 20 C, 589 nm (IAPWS R9-97); absorption is nil over a glass's width. */
export const defaultDrink = (): Drink => ({
  name: 'Water',
  index: 1.333,
  absorptionPerM: [0.3, 0.06, 0.02],
  fillFraction: 0.75,
  meniscusM: 0.0015,
});

export const defaultIce = (): Ice => ({ count: 4, edgeM: 0.024, bevelM: 0.003, seed: 1 });

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

const GLASS_NAMES: Readonly<Record<GlassShape, string>> = {
  highball: 'Highball',
  tumbler: 'Tumbler',
  coupe: 'Coupe',
  conicalStemmed: 'Conical stemmed glass',
  flute: 'Flute',
  wine: 'Wine glass',
  bottle: 'Bottle',
};

/** A sensible new record of each kind, where one would first put it. */
export function defaultPiece(kind: PieceKind, id: string): Piece {
  if (isDressingKind(kind)) return defaultDressing(kind, id);
  const common = { id, headingDeg: 0, positionM: [0, 0, 0] as [number, number, number] };
  switch (kind) {
    case 'glass':
      return { ...defaultGlass('highball', id), ...common };
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
