import { FIXTURE_PRESETS, type FixturePreset, GRIP_PRESETS, type GripPreset } from '../../fixtures/catalog.ts';
import { PIECE_SHELF, SHELF_GROUPS, type ShelfGroup } from '../../scene/pieceShelf.ts';
import { addFixture, addGrip, addShelfItem } from './addRecord.ts';

export type ShelfRoom = 'lights' | 'grip' | ShelfGroup;

export const SHELF_ROOMS: readonly ShelfRoom[] = ['lights', 'grip', ...SHELF_GROUPS];
export const ROOM_WORDS: Readonly<Record<ShelfRoom, string>> = {
  lights: 'Lights',
  grip: 'Grip',
  glasses: 'Glasses',
  drinks: 'Drinks',
  ice: 'Ice',
  garnish: 'Garnish',
  surfaces: 'Surfaces',
  backdrops: 'Backdrops',
  dressing: 'Dressing',
  cutters: 'Cutters',
};

/** Something to put on the set. */
export interface ShelfEntry {
  readonly key: string;
  readonly room: ShelfRoom;
  readonly name: string;
  /** What it is or is for, in one line. */
  readonly line: string;
  /** Puts it on the set as one command and selects it. */
  add(): void;
}

const LIGHT_WORDS: Readonly<Record<FixturePreset['fixture']['kind'], string>> = {
  panel: 'Flat and even',
  spot: 'Focused, hard edges',
  bulb: 'Bare, to all sides',
  tube: 'Long narrow reflection',
  softbox: 'Broad and soft',
  lantern: 'A light that is seen',
  measured: 'By its measured table',
};

/** Everything on the shelf, room by room. */
export const SHELF_ENTRIES: readonly ShelfEntry[] = [
  ...FIXTURE_PRESETS.map(
    (preset): ShelfEntry => ({
      key: preset.id,
      room: 'lights',
      name: preset.label,
      line: lineOfLight(preset),
      add: () => addFixture(preset),
    }),
  ),
  ...GRIP_PRESETS.map(
    (preset): ShelfEntry => ({
      key: preset.id,
      room: 'grip',
      name: preset.label,
      line: lineOfGrip(preset),
      add: () => addGrip(preset),
    }),
  ),
  ...PIECE_SHELF.map(
    (item): ShelfEntry => ({
      key: item.id,
      room: item.group,
      name: item.name,
      line: item.description,
      add: () => addShelfItem(item),
    }),
  ),
];

function lineOfLight({ fixture }: FixturePreset): string {
  const { output, powerW, cctK } = fixture;
  const units = { lumens: 'lm', peakCandela: 'cd', luxAtDistance: 'lx' } as const;
  const figures = [`${output.value} ${units[output.unit]}`, `${cctK} K`, ...(powerW ? [`${powerW} W`] : [])];
  return `${LIGHT_WORDS[fixture.kind]}. About ${figures.join(', ')}.`;
}

function lineOfGrip({ item }: GripPreset): string {
  switch (item.kind) {
    case 'flag':
      return 'Black on both sides: takes light off something.';
    case 'bounceCard':
      return 'Throws light back into the shadows and the edges of glass.';
    case 'diffusionFrame':
      return `Cloth that lets ${Math.round(item.transmittance * 100)} % through: makes a hard light broad.`;
  }
}

const fold = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();

/**
 * Entries that hold every word of the query in their name, line or room, in the order of the shelf; those that begin with
 * the query come first. An empty query finds all.
 */
export function searchShelf(entries: readonly ShelfEntry[], query: string): readonly ShelfEntry[] {
  const words = fold(query).split(/\s+/).filter(Boolean);
  if (words.length === 0) return entries;
  const found = entries.filter(({ name, line, room }) => {
    const text = fold(`${name} ${line} ${ROOM_WORDS[room]}`);
    return words.every((word) => text.includes(word));
  });
  const rank = ({ name }: ShelfEntry): number => {
    const folded = fold(name);
    return folded.startsWith(words[0]) ? 0 : words.every((word) => folded.includes(word)) ? 1 : 2;
  };
  return found.toSorted((a, b) => rank(a) - rank(b));
}
