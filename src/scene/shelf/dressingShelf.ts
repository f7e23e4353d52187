import type { Finish } from '../../materials/finish.ts';
import { findLibraryFinish } from '../../materials/library/index.ts';
import { DRESSING_WORDS, defaultDressing } from '../dressingDefaults.ts';
import { type DressingKind, type DressingOf, dressingSchema } from '../dressingRecords.ts';
import { defaultPiece } from '../pieceDefaults.ts';
import type { Piece } from '../records.ts';
import { type ShelfGroup, type ShelfItem, shelve } from './shelfItem.ts';

/** A default of a kind with some fields changed; the schema holds the rest to what it may be. */
const dressed = <K extends DressingKind>(
  group: ShelfGroup,
  kind: K,
  item: { readonly id?: string; readonly name?: string; readonly line: string },
  more: Partial<Omit<DressingOf<K>, 'kind' | 'id' | 'name'>> = {},
): ShelfItem =>
  shelve(group, item.id ?? kind, item.name ?? DRESSING_WORDS[kind], item.line, (id) =>
    dressingSchema.parse({ ...defaultDressing(kind, id), ...more }),
  );

const library = (id: string): { finish: Finish } => ({
  finish: findLibraryFinish(id)?.finish ?? { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
});

const plinth = (kind: 'plinthBox' | 'plinthCylinder', id: string, name: string, finishId: string): ShelfItem =>
  shelve('dressing', id, name, 'To raise the hero off the table.', (recordId): Piece => {
    const piece = defaultPiece(kind, recordId);
    return 'finish' in piece ? { ...piece, ...library(finishId) } : piece;
  });

const DRESSING: readonly ShelfItem[] = [
  plinth('plinthBox', 'plinth-plaster', 'Plinth, plaster', 'plaster-white'),
  plinth('plinthBox', 'plinth-pale-stone', 'Plinth, pale stone', 'stone-pale-veined'),
  plinth('plinthCylinder', 'plinth-round-grey', 'Round plinth, grey', 'board-grey'),
  plinth('plinthCylinder', 'plinth-round-terrazzo', 'Round plinth, terrazzo', 'terrazzo-pale'),
  dressed('dressing', 'step', { line: 'Block of two steps.' }),
  dressed('dressing', 'arch', { line: 'Block with a round-headed doorway through it.' }),
  dressed(
    'dressing',
    'arch',
    { id: 'arch-flat', name: 'Gate block', line: 'Block with a square doorway.' },
    { head: 'flat' },
  ),
  dressed('dressing', 'sphere', { line: 'Plaster ball: shows where the light comes from.' }),
  dressed('dressing', 'coaster', { line: 'Round cork coaster.' }),
  dressed(
    'dressing',
    'coaster',
    { id: 'coaster-slate', name: 'Slate coaster', line: 'Square, with rounded corners.' },
    {
      shape: 'square',
      thicknessM: 0.006,
      ...library('slate'),
    },
  ),
  dressed('dressing', 'tray', { line: 'Rectangular brass tray.' }),
  dressed(
    'dressing',
    'tray',
    { id: 'tray-round', name: 'Round tray', line: 'Lacquered black, 32 cm across.' },
    {
      shape: 'round',
      widthM: 0.32,
      ...library('acrylic-satin-black'),
    },
  ),
  dressed('dressing', 'napkin', { line: 'White cloth folded in four.' }),
  dressed(
    'dressing',
    'napkin',
    { id: 'napkin-linen', name: 'Linen napkin', line: 'Natural linen, loosely folded.' },
    {
      softness: 0.8,
      ...library('linen-natural'),
    },
  ),
  dressed('dressing', 'spoon', { line: 'Polished teaspoon.' }),
  dressed(
    'dressing',
    'spoon',
    { id: 'spoon-brass', name: 'Bar spoon', line: 'Long, brass.' },
    {
      lengthM: 0.28,
      bowlWidthM: 0.024,
      ...library('brass'),
    },
  ),
  dressed('dressing', 'book', { line: 'Cloth-bound book, lying flat.' }),
  dressed('dressing', 'plant', { line: 'Leafy plant in a clay pot.' }),
  dressed('dressing', 'branch', { line: 'Hangs into the frame or into the light.' }),
  dressed('dressing', 'greyCard', { line: 'Stand-in: 18 % grey with a white and a black patch.' }),
  dressed('dressing', 'greyRamp', { line: 'Twelve patches, half a stop apart.' }),
];

const CUTTERS: readonly ShelfItem[] = [
  dressed('cutters', 'windowCutter', { line: 'Card with a window of six panes, on a stand.' }),
  dressed(
    'cutters',
    'windowCutter',
    { id: 'window-round', name: 'Round-headed window', line: 'Card with a window under an arch.' },
    {
      head: 'round',
      columns: 2,
      rows: 4,
    },
  ),
  dressed(
    'cutters',
    'windowCutter',
    { id: 'doorway', name: 'Doorway cutter', line: 'Card with a doorway, for a door of light on the wall.' },
    {
      shape: 'doorway',
      openingWidthM: 0.36,
      openingHeightM: 0.75,
      columns: 1,
      rows: 1,
    },
  ),
  dressed('cutters', 'dappleCutter', { line: 'Leaves on twigs: soft dapples.' }),
  dressed(
    'cutters',
    'dappleCutter',
    { id: 'lace', name: 'Lace card', line: 'Card with oval holes, cast as a pattern.' },
    {
      cut: 'holes',
      sizeM: 0.05,
      cover: 0.62,
    },
  ),
  dressed('cutters', 'reedScreen', { line: 'Reeds tied with cords: thin uneven stripes.' }),
  dressed('cutters', 'slatScreen', { line: 'Level slats between posts: broad stripes.' }),
  dressed(
    'cutters',
    'slatScreen',
    { id: 'blind', name: 'Tilted blind', line: 'Narrow slats at 35 degrees.' },
    {
      slatWidthM: 0.025,
      pitchM: 0.024,
      tiltDeg: 35,
      slatThicknessM: 0.0008,
      frameM: 0.01,
      finish: { type: 'matte', reflectanceRgb: [0.7, 0.69, 0.66] },
    },
  ),
];

/** Blocks and things to put beside the hero, and what shapes light on its way to it. */
export const DRESSING_SHELF: readonly ShelfItem[] = [...DRESSING, ...CUTTERS];
