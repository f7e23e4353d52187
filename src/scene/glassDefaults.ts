import { DRINKS, findDrink } from '../materials/drinks.ts';
import type {
  Bubbles,
  Condensation,
  Drink,
  DrinkLayer,
  Foam,
  Garnish,
  GarnishKind,
  GlassCut,
  GlassProfile,
  Ice,
  IceForm,
  Label,
  RimCrust,
  Stopper,
} from './records.ts';

export type GlassShape = GlassProfile['shape'];
export const GLASS_SHAPES = [
  'highball',
  'tumbler',
  'doubleTumbler',
  'shot',
  'coupe',
  'conicalStemmed',
  'flute',
  'wine',
  'copa',
  'mug',
  'carafe',
  'bottle',
  'ownProfile',
] as const satisfies readonly GlassShape[];

export const GLASS_NAMES: Readonly<Record<GlassShape, string>> = {
  highball: 'Highball',
  tumbler: 'Tumbler',
  doubleTumbler: 'Double tumbler',
  shot: 'Shot glass',
  coupe: 'Coupe',
  conicalStemmed: 'Conical stemmed glass',
  flute: 'Flute',
  wine: 'Wine glass',
  copa: 'Copa',
  mug: 'Mug',
  carafe: 'Carafe',
  bottle: 'Bottle',
  ownProfile: 'Glass of your own',
};

/** Generic sizes of each shape of glass, metres. Typical of the trade, no source. */
export function defaultGlassProfile(shape: GlassShape): GlassProfile {
  const stem = { stemDiameterM: 0.008, footThicknessM: 0.003 };
  switch (shape) {
    case 'highball':
      return tumbler(shape, { heightM: 0.14, rimDiameterM: 0.064, baseDiameterM: 0.06, baseThicknessM: 0.01 });
    case 'tumbler':
      return tumbler(shape, { heightM: 0.09, rimDiameterM: 0.084, baseDiameterM: 0.078, baseThicknessM: 0.014 });
    case 'doubleTumbler':
      return {
        ...tumbler(shape, { heightM: 0.102, rimDiameterM: 0.092, baseDiameterM: 0.084, baseThicknessM: 0.018 }),
        wallM: 0.0024,
      };
    case 'shot':
      return {
        ...tumbler(shape, { heightM: 0.06, rimDiameterM: 0.046, baseDiameterM: 0.036, baseThicknessM: 0.013 }),
        wallM: 0.0028,
      };
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
    case 'copa':
      return {
        shape,
        ...stem,
        heightM: 0.205,
        rimDiameterM: 0.092,
        bowlDiameterM: 0.11,
        bowlHeightM: 0.118,
        wallM: 0.0014,
        baseThicknessM: 0.009,
        footDiameterM: 0.08,
      };
    case 'mug':
      return {
        shape,
        heightM: 0.13,
        rimDiameterM: 0.086,
        baseDiameterM: 0.084,
        wallM: 0.0045,
        baseThicknessM: 0.016,
        footRadiusM: 0.004,
        floorFilletM: 0.008,
        rim: 'rounded',
        handle: { middleM: 0.066, spanM: 0.072, reachM: 0.032, thicknessM: 0.011, azimuthDeg: 0 },
      };
    case 'carafe':
      return {
        shape,
        heightM: 0.235,
        footDiameterM: 0.056,
        bodyDiameterM: 0.108,
        bodyHeightM: 0.058,
        neckDiameterM: 0.046,
        neckHeightM: 0.178,
        rimDiameterM: 0.072,
        wallM: 0.0022,
        baseThicknessM: 0.006,
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
    case 'ownProfile':
      return { shape, heightM: 0.118, points: waistedBeaker() };
  }
}

const tumbler = (
  shape: 'highball' | 'tumbler' | 'doubleTumbler' | 'shot',
  sizes: { heightM: number; rimDiameterM: number; baseDiameterM: number; baseThicknessM: number },
) => ({ shape, ...sizes, wallM: 0.0016, footRadiusM: 0.003, floorFilletM: 0.004, rim: 'rounded' as const });

/** A waisted beaker to start drawing from, in millimetres: thick foot, drawn-in middle, flaring lip. */
const waistedBeaker = (): Extract<GlassProfile, { shape: 'ownProfile' }>['points'] => [
  { r: 0, y: 0 },
  { r: 34, y: 0, round: 3 },
  { r: 30, y: 50, bulge: -0.1144914 },
  { r: 40, y: 117, bulge: 1 },
  { r: 38.1398284, y: 117.7346848, bulge: 0.1144914 },
  { r: 28.0063694, y: 49.8405096 },
  { r: 30.8736102, y: 14, round: 5 },
  { r: 0, y: 14 },
];

/** Water: the liquid to start from. Index at 20 C, 589 nm (IAPWS R9-97); absorption is nil over a glass's width. */
export const defaultDrink = (): Drink => ({
  name: 'Water',
  index: 1.333,
  absorptionPerM: [0.3, 0.06, 0.02],
  fillFraction: 0.75,
  meniscusM: 0.0015,
});

/** Figures of a drink of the library, its scattering as the same drink with even scattering (similarity relation). */
export function mediumOfLibrary(id: string): Omit<DrinkLayer, 'share'> | undefined {
  const drink = findDrink(id);
  if (!drink) return undefined;
  const [r, g, b] = drink.reducedScatteringPerM;
  return {
    name: drink.name,
    libraryId: drink.id,
    index: drink.index,
    absorptionPerM: [...drink.absorptionPerM],
    ...(r + g + b > 0 ? { scatteringPerM: [r, g, b] as [number, number, number] } : {}),
  };
}

/** A drink of the library, poured to three quarters; undefined for an unknown id. */
export function drinkOfLibrary(id: string): Drink | undefined {
  const medium = mediumOfLibrary(id);
  return medium ? { ...medium, fillFraction: 0.75, meniscusM: 0.0015 } : undefined;
}

export const LIBRARY_DRINK_IDS: readonly string[] = DRINKS.map((drink) => drink.id);

export const defaultFoam = (): Foam => ({
  heightM: 0.022,
  domeM: 0.002,
  look: 'cloudy',
  scatteringPerM: 1500,
  tintRgb: [0.93, 0.9, 0.83],
});

export const defaultBubbles = (): Bubbles => ({
  rising: 120,
  clinging: 60,
  minDiameterM: 0.0004,
  maxDiameterM: 0.0012,
  seed: 1,
});

export const defaultIce = (): Ice => ({ count: 4, edgeM: 0.024, bevelM: 0.003, seed: 1 });

/** Sizes and counts to start from for each form of ice, in a glass of ordinary size. */
export function defaultIceOf(form: IceForm): Ice {
  switch (form) {
    case 'cube':
      return { ...defaultIce(), form };
    case 'block':
      return { form, count: 1, edgeM: 0.042, bevelM: 0.0025, lengthM: 0.05, seed: 1 };
    case 'sphere':
      return { form, count: 1, edgeM: 0.055, bevelM: 0.003, seed: 1 };
    case 'spear':
      return { form, count: 1, edgeM: 0.03, bevelM: 0.003, lengthM: 0.11, seed: 1 };
    case 'cracked':
      return { form, count: 9, edgeM: 0.026, bevelM: 0.0012, seed: 1 };
    case 'crushed':
      return { form, count: 90, edgeM: 0.014, bevelM: 0, seed: 1 };
  }
}

export function defaultGarnish(kind: GarnishKind): Garnish {
  switch (kind) {
    case 'citrusWheel':
      return {
        kind,
        azimuthDeg: 0,
        fruit: 'lemon',
        diameterM: 0.055,
        thicknessM: 0.005,
        place: 'rim',
        seed: 1,
      };
    case 'citrusWedge':
      return { kind, azimuthDeg: 40, fruit: 'lime', diameterM: 0.046, spanDeg: 60, seed: 1 };
    case 'twist':
      return { kind, azimuthDeg: 20, fruit: 'orange', lengthM: 0.09, widthM: 0.007, turns: 2, seed: 1 };
    case 'olives':
      return {
        kind,
        azimuthDeg: 0,
        count: 2,
        lengthM: 0.022,
        pick: 'metal',
        pickLengthM: 0.11,
        rest: 'leaning',
        seed: 1,
      };
    case 'mint':
      return { kind, azimuthDeg: 150, pairs: 5, leafLengthM: 0.032, seed: 1 };
    case 'berries':
      return { kind, azimuthDeg: 0, berry: 'blueberry', count: 3, diameterM: 0.014, seed: 1 };
    case 'straw':
      return { kind, azimuthDeg: 30, material: 'paper', diameterM: 0.006, lengthM: 0.2 };
    case 'stirrer':
      return { kind, azimuthDeg: 30, material: 'glass', diameterM: 0.005, lengthM: 0.18 };
  }
}

export const GARNISH_KINDS = [
  'citrusWheel',
  'citrusWedge',
  'twist',
  'olives',
  'mint',
  'berries',
  'straw',
  'stirrer',
] as const satisfies readonly GarnishKind[];

export const defaultCondensation = (): Condensation => ({
  dropsPerCm2: 8,
  minDiameterM: 0.0008,
  maxDiameterM: 0.0036,
  seed: 1,
});

export const defaultRimCrust = (): RimCrust => ({ kind: 'salt', depthM: 0.005, spanDeg: 360, azimuthDeg: 90, seed: 1 });

export const defaultGlassCut = (): GlassCut => ({
  style: 'ribs',
  count: 36,
  depthM: 0.0006,
  bottomM: 0.015,
  topM: 0.075,
  seed: 1,
});

export const defaultLabel = (): Label => ({
  bottomM: 0.035,
  heightM: 0.06,
  spanDeg: 150,
  azimuthDeg: 90,
  finish: { type: 'matte', reflectanceRgb: [0.78, 0.76, 0.7] },
});

export const defaultStopper = (): Stopper => ({ kind: 'cork', insertM: 0.02, heightM: 0.012 });
