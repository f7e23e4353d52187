import { CLEAR_TINTS } from '../../src/materials/clearTints.ts';
import type { Finish } from '../../src/materials/finish.ts';
import { FINISH_LIBRARY, findLibraryFinish } from '../../src/materials/library/index.ts';
import { patternSchema } from '../../src/materials/pattern.ts';
import { drinkOfLibrary } from '../../src/scene/glassDefaults.ts';
import { shelfOf } from '../../src/scene/pieceShelf.ts';
import { type Piece, pieceSchema } from '../../src/scene/records.ts';
import { glassWith } from './glassItems.ts';
import type { SheetItem } from './itemSetup.ts';

const PIECE_ID = 'piece:shown';

const piece = (record: object): Piece =>
  pieceSchema.parse({ id: PIECE_ID, name: 'Shown', positionM: [0, 0, 0], ...record });

/** A small board of a finish, seen from where a table top is seen. */
const board = (caption: string, finish: Finish, more: object = {}): SheetItem => ({
  caption,
  pieces: [
    piece({ kind: 'sheet', widthM: 0.2, depthM: 0.16, thicknessM: 0.012, edgeRadiusM: 0.0015, finish, ...more }),
    piece({
      id: 'piece:ball',
      kind: 'sphere',
      positionM: [0.045, 0.0122, -0.02],
      diameterM: 0.046,
      finish: { type: 'matte', reflectanceRgb: [0.6, 0.59, 0.57] },
    }),
  ],
  frameIds: [PIECE_ID],
  elevationDeg: 30,
  azimuthDeg: -18,
  margin: 1.04,
  rig: 'paper',
});

const inGroups = (...groups: string[]): SheetItem[] =>
  FINISH_LIBRARY.filter(({ group }) => groups.includes(group)).map(({ name, finish }) =>
    board(shortName(name), level(finish)),
  );

/** Long names lose what comes after the comma. */
const shortName = (name: string): string => (name.length > 22 ? name.split(',')[0] : name);

/** Upright patterns laid down. */
const level = (finish: Finish): Finish =>
  'pattern' in finish && finish.pattern && 'plane' in finish.pattern
    ? { ...finish, pattern: { ...finish.pattern, plane: 'level' } }
    : finish;

const black = findLibraryFinish('acrylic-black')?.finish;
const onBlack = (caption: string, more: object): SheetItem[] =>
  black ? [board(caption, { ...black, ...more } as Finish)] : [];

const pattern = (caption: string, raw: object, base: [number, number, number]): SheetItem =>
  board(caption, { type: 'matte', reflectanceRgb: base, pattern: patternSchema.parse(raw) });

export const SURFACE_ITEMS: readonly SheetItem[] = [
  ...inGroups('acrylic', 'board', 'wood', 'stone', 'cloth', 'tile', 'metal'),
  ...onBlack('Gloss black, dusty', { dust: 0.06 }),
  ...onBlack('Gloss black, worn', { scratches: 0.8 }),
  pattern('Speckle', { type: 'speckle', secondRgb: [0.08, 0.07, 0.06], share: 0.1 }, [0.6, 0.56, 0.5]),
];

export const PAPER_ITEMS: readonly SheetItem[] = inGroups('paper');

/** Blocks of every tint, so thick and so thin, with a striped card behind to see through. */
export const CLEAR_ITEMS: readonly SheetItem[] = CLEAR_TINTS.map(({ name, index, absorptionPerM }) => ({
  caption: name,
  pieces: [
    piece({
      kind: 'plinthBox',
      widthM: 0.07,
      depthM: 0.05,
      heightM: 0.05,
      edgeRadiusM: 0.0015,
      positionM: [0, 0, 0],
      headingDeg: 24,
      finish: { type: 'clear' },
      clearIndex: index,
      clearAbsorptionPerM: absorptionPerM,
    }),
    piece({
      id: 'piece:sheet',
      kind: 'sheet',
      widthM: 0.15,
      depthM: 0.1,
      thicknessM: 0.005,
      edgeRadiusM: 0.0006,
      positionM: [0.01, 0, 0.1],
      headingDeg: 24,
      finish: { type: 'clear' },
      clearIndex: index,
      clearAbsorptionPerM: absorptionPerM,
    }),
  ],
  elevationDeg: 24,
  rig: 'paper',
  margin: 1.1,
}));

/** How far the lights go out for a thing of a size; a glass is a tenth of a metre or two. */
const scaleFor = (sizeM: number): number => Math.max(1, sizeM / 0.3);

const shown = (group: 'dressing' | 'cutters' | 'backdrops', sizes: (made: Piece) => Partial<SheetItem>): SheetItem[] =>
  shelfOf(group).map(({ name, make }) => {
    const made: Piece = { ...make(PIECE_ID), positionM: [0, 0, 0] };
    return { caption: name, pieces: [made], ...sizes(made) };
  });

const sizeOf = (made: Piece): number =>
  Math.max(
    'widthM' in made ? made.widthM : 0,
    'heightM' in made ? made.heightM : 0,
    'standM' in made ? made.standM + made.heightM : 0,
    'lengthM' in made ? made.lengthM : 0,
    0.1,
  );

const LOW: ReadonlySet<string> = new Set(['coaster', 'tray', 'napkin', 'spoon', 'book', 'greyRamp']);

export const DRESSING_ITEMS: readonly SheetItem[] = [
  ...shown('dressing', (made) => ({
    scale: scaleFor(sizeOf(made)),
    elevationDeg: LOW.has(made.kind) ? 32 : 12,
    azimuthDeg: made.kind === 'greyCard' || made.kind === 'greyRamp' || made.kind === 'branch' ? 0 : -24,
    rig: 'paper',
  })),
  {
    caption: 'Lantern',
    pieces: [piece({ kind: 'coaster', widthM: 0.12, finish: findLibraryFinish('slate')?.finish })],
    frameIds: [PIECE_ID],
    rig: 'dim',
    fixtures: [
      {
        kind: 'lantern',
        id: 'fixture:lantern',
        name: 'Lantern',
        positionM: [0, 0.11, 0],
        aimM: [0, 0, 0],
        output: { unit: 'lumens', value: 260 },
        cctK: 2700,
        bulbDiameterM: 0.04,
        shape: 'cylinder',
        diameterM: 0.12,
        heightM: 0.19,
        transmittance: 0.42,
        reflectance: 0.48,
        tintRgb: [1, 0.9, 0.75],
      },
    ],
    close: { middleM: [0, 0.105, 0], heightM: 0.27 },
  },
  {
    caption: 'Light table',
    pieces: [
      piece({
        kind: 'lightTable',
        widthM: 0.34,
        depthM: 0.26,
        heightM: 0.1,
        finish: findLibraryFinish('acrylic-frosted')?.finish,
      }),
      {
        ...glassWith('tumbler', { drink: { ...drinkOfLibrary('apple-juice'), fillFraction: 0.6 } }),
        positionM: [0, 0.1, 0],
      },
    ],
    rig: 'dim',
    fixtures: [
      {
        kind: 'panel',
        id: 'fixture:under',
        name: 'Panel under the sheet',
        positionM: [0, 0.015, 0],
        aimM: [0, 1, 0],
        output: { unit: 'lumens', value: 900 },
        widthM: 0.26,
        heightM: 0.18,
        depthM: 0.008,
      },
    ],
    elevationDeg: 16,
    azimuthDeg: -20,
  },
];

export const CUTTER_ITEMS: readonly SheetItem[] = shown('cutters', (made) => ({
  scale: scaleFor(sizeOf(made)),
  azimuthDeg: -22,
  rig: 'paper',
}));

export const BACKDROP_ITEMS: readonly SheetItem[] = shown('backdrops', (made) => ({
  scale: 4,
  rig: 'bare',
  azimuthDeg: made.kind === 'sweep' ? -20 : -26,
  elevationDeg: made.kind === 'sweep' ? 14 : 2,
  ...(made.kind === 'sweep' ? {} : { close: { middleM: [0, 0.45, 0] as const, heightM: 1.05 } }),
})).filter(({ pieces: [first] }) => first.kind !== 'sweep' || /white/i.test(first.name));
