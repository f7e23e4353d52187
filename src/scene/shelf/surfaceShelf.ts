import type { Finish } from '../../materials/finish.ts';
import { FINISH_LIBRARY, type LibraryFinish } from '../../materials/library/index.ts';
import type { Pattern } from '../../materials/pattern.ts';
import { defaultDressing } from '../dressingDefaults.ts';
import { defaultPiece } from '../pieceDefaults.ts';
import type { Piece } from '../records.ts';
import { type ShelfItem, shelve } from './shelfItem.ts';

type Plane = Extract<Pattern, { plane: string }>['plane'];

/** A finish with its pattern laid into another plane of the piece; solid patterns need none. */
function laidIn(finish: Finish, plane: Plane): Finish {
  if (!('pattern' in finish) || !finish.pattern || !('plane' in finish.pattern)) return finish;
  return { ...finish, pattern: { ...finish.pattern, plane } };
}

const withFinish = (piece: Piece, finish: Finish): Piece => ('finish' in piece ? { ...piece, finish } : piece);

const inGroups = (...groups: readonly LibraryFinish['group'][]): readonly LibraryFinish[] =>
  FINISH_LIBRARY.filter(({ group }) => groups.includes(group));

const TABLE_LINES: Partial<Record<LibraryFinish['group'], string>> = {
  wood: 'Table top, 120 x 80 cm.',
  stone: 'Table top, 120 x 80 cm.',
  tile: 'Tiled table top, 120 x 80 cm.',
  cloth: 'Table top covered in it, 120 x 80 cm.',
};

const TABLES: readonly ShelfItem[] = inGroups('wood', 'stone', 'tile', 'cloth').map((entry) =>
  shelve('surfaces', `table-${entry.id}`, entry.name, TABLE_LINES[entry.group] ?? 'Table top.', (id) =>
    withFinish(defaultPiece('tabletop', id), laidIn(entry.finish, 'level')),
  ),
);

const SHEETS: readonly ShelfItem[] = inGroups('acrylic', 'board', 'metal').map((entry) =>
  shelve('surfaces', `sheet-${entry.id}`, entry.name, 'Sheet, 60 x 60 cm, to lie on the table.', (id) =>
    withFinish(defaultPiece('sheet', id), laidIn(entry.finish, 'level')),
  ),
);

const LIGHT_TABLES: readonly ShelfItem[] = inGroups('diffuser').map((entry) =>
  shelve(
    'surfaces',
    `light-table-${entry.id}`,
    `Light table, ${entry.name.split(',')[0].toLowerCase()}`,
    'Translucent top to be lit from below.',
    (id) => withFinish(defaultDressing('lightTable', id), entry.finish),
  ),
);

const SWEEPS: readonly ShelfItem[] = inGroups('paper').map((entry) =>
  shelve(
    'backdrops',
    `sweep-${entry.id}`,
    `${entry.name} sweep`,
    'Seamless paper, 1.35 m wide, over the table and up.',
    (id) => withFinish(defaultPiece('sweep', id), entry.finish),
  ),
);

const WALL_IDS = [
  'plaster-white',
  'plaster-limewash',
  'concrete',
  'tile-white',
  'tile-river-green',
  'board-painted-green',
  'board-painted-blue',
  'planks-weathered',
  'linen-natural',
  'linen-indigo',
  'flock-black',
];

const WALLS: readonly ShelfItem[] = FINISH_LIBRARY.filter(({ id }) => WALL_IDS.includes(id)).map((entry) =>
  shelve(
    'backdrops',
    `wall-${entry.id}`,
    `Wall, ${lowerFirst(entry.name)}`,
    'Upright panel, 2 x 1.5 m, behind the table.',
    (id) => withFinish(defaultPiece('wall', id), laidIn(entry.finish, 'upright')),
  ),
);

function lowerFirst(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

const BUILT_WALLS: readonly ShelfItem[] = [
  shelve(
    'backdrops',
    'wall-slatted',
    'Slatted wall',
    'Upright slats on a panel: a raking light draws lines on it.',
    (id) => defaultDressing('slattedWall', id),
  ),
  shelve('backdrops', 'wall-slatted-level', 'Slatted wall, level', 'Level slats on a panel.', (id) => {
    const wall = defaultDressing('slattedWall', id);
    return wall.kind === 'slattedWall' ? { ...wall, direction: 'level' } : wall;
  }),
  shelve('backdrops', 'wall-moulded', 'Moulded wall', 'Panels framed by a bead, over a skirting board.', (id) =>
    defaultDressing('mouldedWall', id),
  ),
];

/** What things stand on, and what stands behind them. */
export const SURFACE_SHELF: readonly ShelfItem[] = [
  ...TABLES,
  ...SHEETS,
  ...LIGHT_TABLES,
  ...SWEEPS,
  ...WALLS,
  ...BUILT_WALLS,
];
