import { DRESSING_SHELF } from './shelf/dressingShelf.ts';
import { GLASS_SHELF } from './shelf/glassShelf.ts';
import type { ShelfGroup, ShelfItem } from './shelf/shelfItem.ts';
import { SURFACE_SHELF } from './shelf/surfaceShelf.ts';

export { SHELF_GROUPS, type ShelfGroup, type ShelfItem } from './shelf/shelfItem.ts';

/** Everything that can be put on a set, in the order of its groups. */
export const PIECE_SHELF: readonly ShelfItem[] = [...GLASS_SHELF, ...SURFACE_SHELF, ...DRESSING_SHELF];

export const shelfOf = (group: ShelfGroup): readonly ShelfItem[] => PIECE_SHELF.filter((item) => item.group === group);

/** The item of an id; undefined for an unknown one. */
export const findShelfItem = (id: string): ShelfItem | undefined => PIECE_SHELF.find((item) => item.id === id);
