import { describe, expect, it } from 'vitest';
import { buildSet } from '../../src/scene/buildSet.ts';
import { defaultPiece, GLASS_SHAPES, PIECE_KINDS } from '../../src/scene/pieceDefaults.ts';
import { findShelfItem, PIECE_SHELF, SHELF_GROUPS, shelfOf } from '../../src/scene/pieceShelf.ts';
import { pieceSchema } from '../../src/scene/records.ts';
import { sceneOf } from './sceneTools.ts';

describe('the shelf', () => {
  it('has ids and names of their own, a group, and one line each', () => {
    expect(new Set(PIECE_SHELF.map(({ id }) => id)).size).toBe(PIECE_SHELF.length);
    for (const group of SHELF_GROUPS) {
      const items = shelfOf(group);
      expect(items.length).toBeGreaterThan(3);
      expect(new Set(items.map(({ name }) => name)).size).toBe(items.length);
    }
    for (const { description } of PIECE_SHELF) expect(description).toMatch(/^[A-Z1-9].{3,80}\.$/);
  });

  it('holds every kind of piece and every shape of glass', () => {
    const made = PIECE_SHELF.map((item) => item.make('a'));
    // A body of one's own comes from a file, not from the shelf.
    expect(new Set(made.map(({ kind }) => kind))).toEqual(new Set(PIECE_KINDS.filter((kind) => kind !== 'ownShape')));
    const shapes = made.flatMap((piece) => (piece.kind === 'glass' ? [piece.profile.shape] : []));
    expect(new Set(shapes)).toEqual(new Set(GLASS_SHAPES));
  });

  it('finds an item by its id', () => {
    expect(findShelfItem('doorway')?.name).toBe('Doorway cutter');
    expect(findShelfItem('nothing')).toBeUndefined();
  });
});

describe.each(PIECE_SHELF.map((item) => [item.id, item] as const))('%s', (_, item) => {
  it('is a valid, complete record under its name that builds without a fault', () => {
    const piece = item.make('a');
    expect(pieceSchema.parse(piece)).toEqual(piece);
    expect(piece.name).toBe(item.name);
    const pieces = piece.kind === 'tabletop' ? [piece] : [defaultPiece('tabletop', 'table'), piece];
    const set = buildSet(sceneOf(pieces));
    expect(set.diagnostics).toEqual([]);
    expect(set.surfaces.some(({ recordId }) => recordId === 'a')).toBe(true);
  });
});
