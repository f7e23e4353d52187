import { beforeEach, describe, expect, it } from 'vitest';
import { emptySetup } from '../../../src/document/defaults.ts';
import { FIXTURE_PRESETS, GRIP_PRESETS } from '../../../src/fixtures/catalog.ts';
import { PIECE_SHELF } from '../../../src/scene/pieceShelf.ts';
import { documentStore, sessionStore } from '../../../src/views/session/index.ts';
import { SHELF_ENTRIES, SHELF_ROOMS, searchShelf } from '../../../src/views/shelf/shelfEntries.ts';

const entryOf = (key: string) => {
  const entry = SHELF_ENTRIES.find((candidate) => candidate.key === key);
  if (!entry) throw new Error(`nothing on the shelf is ${key}`);
  return entry;
};
const counts = () => {
  const { pieces, fixtures, grip } = documentStore.getState().setup;
  return pieces.length + fixtures.length + grip.length;
};

beforeEach(() => {
  documentStore.load(emptySetup());
});

describe('the shelf', () => {
  it('holds every light, grip and piece once, in ten rooms, each with a line of its own words', () => {
    expect(SHELF_ENTRIES).toHaveLength(FIXTURE_PRESETS.length + GRIP_PRESETS.length + PIECE_SHELF.length);
    expect(new Set(SHELF_ENTRIES.map(({ room, key }) => `${room} ${key}`)).size).toBe(SHELF_ENTRIES.length);
    for (const room of SHELF_ROOMS) expect(SHELF_ENTRIES.some((entry) => entry.room === room)).toBe(true);
    for (const { name, line } of SHELF_ENTRIES) expect(line.length, name).toBeGreaterThan(5);
  });

  it('finds "rose" also as Rosé, and all words of "black acrylic" wherever they stand', () => {
    expect(searchShelf(SHELF_ENTRIES, 'rose')[0].name).toBe('Rosé wine');
    const black = searchShelf(SHELF_ENTRIES, '  acrylic BLACK ').map(({ name }) => name);
    expect(black).toContain('Gloss acrylic, black');
    expect(black).not.toContain('Gloss acrylic, white');
    expect(searchShelf(SHELF_ENTRIES, 'no such thing')).toEqual([]);
    expect(searchShelf(SHELF_ENTRIES, ' ')).toBe(SHELF_ENTRIES);
  });

  it('puts what begins with the words before what only speaks of them', () => {
    const names = searchShelf(SHELF_ENTRIES, 'tumbler').map(({ name }) => name);
    expect(names[0]).toBe('Tumbler');
    expect(names.indexOf('Double tumbler')).toBeLessThan(names.indexOf('Clear spirit, 40 % by volume'));
  });
});

describe('taking something from the shelf', () => {
  it('adds every entry as one command that undo takes back whole, and selects it', () => {
    for (const entry of SHELF_ENTRIES) {
      documentStore.load(emptySetup());
      const before = documentStore.getState().setup;
      entry.add();
      const { setup } = documentStore.getState();
      const { selectedId } = sessionStore.getState();
      expect(setup, entry.name).not.toBe(before);
      expect([...setup.pieces, ...setup.fixtures, ...setup.grip].some(({ id }) => id === selectedId)).toBe(true);
      documentStore.undo();
      expect(documentStore.getState().setup, entry.name).toEqual(before);
    }
  });

  it('stands a second glass 12 cm beside the first and gives it a name of its own', () => {
    const start = counts();
    entryOf('glass-copa').add();
    entryOf('glass-copa').add();
    expect(counts()).toBe(start + 2);
    const [first, second] = documentStore.getState().setup.pieces.slice(-2);
    expect(second.positionM[0] - first.positionM[0]).toBeCloseTo(0.12, 6);
    expect(second.name).not.toBe(first.name);
  });

  it('lays a table top onto the table that there is', () => {
    entryOf('table-oak-light').add();
    const once = counts();
    entryOf('table-walnut').add();
    expect(counts()).toBe(once);
    const table = documentStore.getState().setup.pieces.find(({ kind }) => kind === 'tabletop');
    expect(table?.name).toBe('Dark walnut, satin varnish');
  });
});
