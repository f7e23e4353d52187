import { findGlassTint } from '../../src/materials/glassTints.ts';
import {
  defaultFoam,
  defaultGarnish,
  defaultGlassProfile,
  defaultIceOf,
  drinkOfLibrary,
  GLASS_NAMES,
  GLASS_SHAPES,
  type GlassShape,
  mediumOfLibrary,
} from '../../src/scene/glassDefaults.ts';
import { PIECE_SHELF } from '../../src/scene/pieceShelf.ts';
import { type ICE_FORMS, type Piece, pieceSchema } from '../../src/scene/records.ts';
import type { SheetItem } from './itemSetup.ts';

const GLASS_ID = 'piece:glass';

/** A glass of a shape with whatever is in it and on it; a record as the document holds it. */
export function glassWith(shape: GlassShape, more: object): Piece {
  return pieceSchema.parse({
    kind: 'glass',
    id: GLASS_ID,
    name: GLASS_NAMES[shape],
    positionM: [0, 0, 0],
    profile: defaultGlassProfile(shape),
    ...more,
  });
}

const poured = (id: string, fillFraction: number, more: object = {}): object => ({
  drink: { ...drinkOfLibrary(id), fillFraction, ...more },
});

const item = (caption: string, shape: GlassShape, more: object, look: Partial<SheetItem> = {}): SheetItem => ({
  caption,
  pieces: [glassWith(shape, more)],
  ...look,
});

const FILLS: Partial<Record<GlassShape, object>> = {
  wine: poured('white-wine', 0.42),
  flute: poured('lemon-soda', 0.7),
  coupe: poured('rose-wine', 0.66),
  conicalStemmed: poured('clear-spirit', 0.7),
  copa: poured('hibiscus', 0.5),
  mug: poured('apple-juice', 0.7),
  carafe: poured('rose-wine', 0.5),
  bottle: {},
};

/** Every shape of glass, and what can be done to its outside. */
export const GLASS_ITEMS: readonly SheetItem[] = GLASS_SHAPES.map((shape) =>
  item(GLASS_NAMES[shape], shape, FILLS[shape] ?? poured('water', 0.6)),
);

const tinted = (id: string): object => {
  const tint = findGlassTint(id);
  return tint ? { glassIndex: tint.index, glassAbsorptionPerM: [...tint.absorptionPerM] } : {};
};
const cut = (style: string, count: number, depthM: number, bottomM: number, topM: number): object => ({
  cut: { style, count, depthM, bottomM, topM },
});
const label = {
  label: { bottomM: 0.035, heightM: 0.06, spanDeg: 150, finish: { type: 'matte', reflectanceRgb: [0.78, 0.76, 0.7] } },
};

export const FINISHED_GLASS_ITEMS: readonly SheetItem[] = [
  item('Ribs', 'highball', { ...cut('ribs', 40, 0.0006, 0.016, 0.09), ...poured('water', 0.7) }),
  item('Flutes', 'tumbler', { ...cut('flutes', 20, 0.0009, 0.02, 0.07), ...poured('clear-spirit', 0.5) }),
  item('Facets', 'doubleTumbler', {
    profile: { ...defaultGlassProfile('doubleTumbler'), wallM: 0.004, baseDiameterM: 0.092 },
    ...cut('facets', 12, 0.0025, 0.006, 0.06),
    ...poured('clear-spirit', 0.4),
  }),
  item('Hammered', 'tumbler', { ...cut('hammered', 22, 0.0006, 0.015, 0.075), ...poured('water', 0.5) }),
  item('Satin frost', 'highball', { frost: 0.5, ...poured('iced-tea', 0.7) }),
  item('Sand-blasted', 'tumbler', { frost: 1, ...poured('iced-tea', 0.6) }),
  item('Recycled', 'tumbler', { ...tinted('recycled'), ...poured('water', 0.6) }),
  item('Smoke', 'highball', { ...tinted('smoke'), ...poured('water', 0.7) }),
  item('Amber', 'doubleTumbler', { ...tinted('amber'), ...poured('water', 0.5) }),
  item('Cobalt', 'tumbler', { ...tinted('cobalt'), ...poured('water', 0.5) }),
  item('Rose', 'coupe', { ...tinted('rose'), ...poured('water', 0.6) }),
  item('Lead crystal', 'conicalStemmed', { ...tinted('lead-crystal'), ...poured('water', 0.6) }),
  item('Label and cork', 'bottle', { ...label, ...poured('red-wine', 0.72), stopper: { kind: 'cork' } }),
  item('Glass stopper', 'bottle', {
    ...tinted('amber'),
    ...label,
    ...poured('clear-spirit', 0.8),
    stopper: { kind: 'glass' },
  }),
  item('Green bottle', 'bottle', {
    ...tinted('bottle-green'),
    ...poured('white-wine', 0.75),
    stopper: { kind: 'cork' },
  }),
  item(
    'Salt rim',
    'conicalStemmed',
    { ...poured('white-grapefruit-juice', 0.7), rimCrust: { kind: 'salt' } },
    { elevationDeg: 9, close: { middleM: [0, 0.142, 0], heightM: 0.17 } },
  ),
  item(
    'Sugar, half the rim',
    'coupe',
    { ...poured('cranberry-juice', 0.6), rimCrust: { kind: 'sugar', spanDeg: 200 } },
    { elevationDeg: 9, close: { middleM: [0, 0.118, 0], heightM: 0.155 } },
  ),
];

/** Drinks as the shelf serves them, and mixtures of them. */
export const DRINK_ITEMS: readonly SheetItem[] = [
  ...PIECE_SHELF.filter(({ group }) => group === 'drinks').map(({ name, make }) => ({
    caption: name
      .split(/[,(]/)[0]
      .replaceAll('é', 'e')
      .replace('Pink grapefruit juice', 'Pink grapefruit')
      .replace('White grapefruit juice', 'White grapefruit'),
    pieces: [make(GLASS_ID)],
  })),
  item('Layered', 'highball', {
    ...poured('cranberry-juice', 0.85, {
      layers: [
        { ...mediumOfLibrary('apple-juice'), share: 0.35 },
        { ...mediumOfLibrary('tonic'), share: 0.25 },
      ],
    }),
  }),
  item('Gradient', 'highball', {
    ...poured('orange-juice', 0.85, { layers: [{ ...mediumOfLibrary('hibiscus'), share: 0.6, blend: 0.75 }] }),
  }),
  item('Sour with foam', 'coupe', {
    ...poured('white-grapefruit-juice', 0.6, { foam: { ...defaultFoam(), heightM: 0.008, domeM: 0.001 } }),
  }),
];

/** Colour alone tells these apart. */
export const COLOUR_ROW: readonly SheetItem[] = [
  item('Apple juice', 'highball', poured('apple-juice', 0.78)),
  item('Cola', 'highball', poured('cola', 0.78)),
  item(
    'Lager',
    'highball',
    poured('lager', 0.75, { foam: { ...defaultFoam(), look: 'matte' }, bubbles: { rising: 160, clinging: 60 } }),
  ),
];

const iceOf = (form: (typeof ICE_FORMS)[number], more: object = {}): object => ({
  ice: { ...defaultIceOf(form), ...more },
});
const water = poured('water', 0.7);

export const ICE_ITEMS: readonly SheetItem[] = [
  item('Clear cubes', 'highball', { ...water, ...iceOf('cube') }),
  item('Block', 'doubleTumbler', { ...poured('clear-spirit', 0.5), ...iceOf('block') }),
  item('Ball', 'doubleTumbler', { ...poured('clear-spirit', 0.5), ...iceOf('sphere') }),
  item('Spear', 'highball', { ...water, ...iceOf('spear') }),
  item('Cracked', 'doubleTumbler', { ...water, ...iceOf('cracked') }),
  item('Crushed', 'highball', { ...water, ...iceOf('crushed') }),
  item('Cloudy core', 'highball', { ...water, ...iceOf('cube', { cloudyCore: 1 }) }),
  item('Cubes, dry glass', 'tumbler', iceOf('cube')),
  item('Melted 5 min', 'highball', { ...poured('iced-tea', 0.75), ...iceOf('cube', { meltMin: 5, cloudyCore: 0.5 }) }),
  item('Melted 15 min', 'highball', {
    ...poured('iced-tea', 0.75),
    ...iceOf('cube', { meltMin: 15, cloudyCore: 0.5 }),
  }),
  item('Melted 30 min', 'highball', {
    ...poured('iced-tea', 0.75),
    ...iceOf('cube', { meltMin: 30, cloudyCore: 0.5 }),
  }),
  item('Cubes in tea', 'highball', { ...poured('iced-tea', 0.75), ...iceOf('cube') }),
];

const wet = (more: object): object => ({ condensation: more });
const cold = { ...poured('tonic', 0.75), ...iceOf('cube') };

export const WET_ITEMS: readonly SheetItem[] = [
  item('Fresh mist', 'highball', { ...cold, ...wet({ dropsPerCm2: 2, maxDiameterM: 0.0015, mist: 0.8 }) }),
  item('Beads', 'highball', { ...cold, ...wet({}) }),
  item('Large drops', 'highball', { ...cold, ...wet({ dropsPerCm2: 5, minDiameterM: 0.001, maxDiameterM: 0.0065 }) }),
  item('Wiped band', 'highball', {
    ...cold,
    ...wet({ dropsPerCm2: 10, mist: 0.5, wiped: { bottomM: 0.05, topM: 0.085 } }),
  }),
  item('Rising bubbles', 'flute', poured('white-wine', 0.75, { bubbles: { rising: 400, clinging: 60 } })),
  item('Clinging bubbles', 'highball', poured('tonic', 0.75, { bubbles: { rising: 60, clinging: 500 } })),
  item(
    'Head, 22 mm',
    'highball',
    poured('lager', 0.75, { foam: defaultFoam(), bubbles: { rising: 160, clinging: 60 } }),
  ),
  item('Head, matte', 'highball', poured('lager', 0.75, { foam: { ...defaultFoam(), look: 'matte' } })),
];

const garnished = (caption: string, shape: GlassShape, drink: object, ...garnish: object[]): SheetItem =>
  item(caption, shape, { ...drink, garnish }, { elevationDeg: 8 });
const soda = { ...poured('lemon-soda', 0.75), ...iceOf('cube') };

export const GARNISH_ITEMS: readonly SheetItem[] = [
  garnished('Lemon wheel', 'highball', soda, { ...defaultGarnish('citrusWheel'), azimuthDeg: 50 }),
  garnished('Orange inside', 'highball', poured('tonic', 0.75), {
    ...defaultGarnish('citrusWheel'),
    fruit: 'orange',
    place: 'inside',
    azimuthDeg: 90,
  }),
  garnished('Grapefruit wheel', 'copa', soda, {
    ...defaultGarnish('citrusWheel'),
    fruit: 'grapefruit',
    diameterM: 0.08,
    azimuthDeg: 60,
  }),
  garnished('Lime wedge', 'tumbler', soda, { ...defaultGarnish('citrusWedge'), azimuthDeg: 60 }),
  garnished('Orange twist', 'tumbler', poured('iced-tea', 0.5), { ...defaultGarnish('twist'), azimuthDeg: 60 }),
  garnished('Lemon twist', 'conicalStemmed', poured('clear-spirit', 0.7), {
    ...defaultGarnish('twist'),
    fruit: 'lemon',
    azimuthDeg: 60,
  }),
  garnished('Olives on a pick', 'conicalStemmed', poured('clear-spirit', 0.7), defaultGarnish('olives')),
  garnished('Olives across', 'conicalStemmed', poured('clear-spirit', 0.7), {
    ...defaultGarnish('olives'),
    rest: 'across',
    pick: 'wood',
    count: 3,
  }),
  garnished('Mint', 'highball', soda, { ...defaultGarnish('mint'), azimuthDeg: 60 }),
  garnished('Blueberries', 'highball', soda, defaultGarnish('berries')),
  garnished('Raspberries', 'coupe', poured('rose-wine', 0.6), {
    ...defaultGarnish('berries'),
    berry: 'raspberry',
    diameterM: 0.018,
  }),
  garnished('Cherry', 'coupe', poured('clear-spirit', 0.6), {
    ...defaultGarnish('berries'),
    berry: 'cherry',
    count: 1,
    diameterM: 0.022,
  }),
  garnished('Cranberries', 'highball', soda, {
    ...defaultGarnish('berries'),
    berry: 'cranberry',
    count: 6,
    diameterM: 0.012,
  }),
  garnished('Paper straw', 'highball', soda, defaultGarnish('straw')),
  garnished('Glass straw', 'highball', poured('cranberry-juice', 0.75), {
    ...defaultGarnish('straw'),
    material: 'glass',
  }),
  garnished('Metal straw', 'highball', soda, { ...defaultGarnish('straw'), material: 'metal' }),
  garnished('Bamboo straw', 'highball', soda, { ...defaultGarnish('straw'), material: 'bamboo', diameterM: 0.009 }),
  garnished('Glass stirrer', 'highball', poured('tonic', 0.7), defaultGarnish('stirrer')),
  garnished('Metal stirrer', 'highball', poured('tonic', 0.7), { ...defaultGarnish('stirrer'), material: 'metal' }),
  ...PIECE_SHELF.filter(({ group }) => group === 'garnish').map(({ name, make }) => ({
    caption: name,
    pieces: [{ ...make('piece:garnish'), positionM: [0, 0, 0] as [number, number, number] }],
    elevationDeg: 32,
    rig: 'paper' as const,
  })),
];
