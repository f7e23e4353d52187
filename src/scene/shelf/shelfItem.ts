import type { Piece } from '../records.ts';

export const SHELF_GROUPS = [
  'glasses',
  'drinks',
  'ice',
  'garnish',
  'surfaces',
  'backdrops',
  'dressing',
  'cutters',
] as const;
export type ShelfGroup = (typeof SHELF_GROUPS)[number];

/** Something that can be taken from the shelf and put on the set. */
export interface ShelfItem {
  /** Unique on the shelf. */
  readonly id: string;
  readonly group: ShelfGroup;
  readonly name: string;
  /** What it is or is for, in one line. */
  readonly description: string;
  /** A new record of it under a record id. The same record each time. */
  make(recordId: string): Piece;
}

export const shelve = (
  group: ShelfGroup,
  id: string,
  name: string,
  description: string,
  make: (recordId: string) => Piece,
): ShelfItem => ({ id, group, name, description, make: (recordId) => ({ ...make(recordId), name }) });
