import type { GlassShape } from '../../scene/glassDefaults.ts';

/** How the light should feel; each is a way of lighting that photographers of drinks know. */
export type Mood = 'dark' | 'airy' | 'window' | 'noon' | 'evening';
export type PictureFormat = '16:9' | '3:2' | '1:1' | '4:5' | '9:16';

/** What somebody wants of a picture before anything stands on a table. Ids are those of the shelf. */
export interface Brief {
  /** Of the shelf's drinks. */
  readonly drinkId: string;
  /** As the drink is usually served when null. */
  readonly glass: GlassShape | null;
  /** A table top, a sheet or a paper sweep. */
  readonly surfaceId: string;
  readonly mood: Mood;
  readonly format: PictureFormat;
}

interface MoodWords {
  readonly mood: Mood;
  readonly name: string;
  readonly line: string;
  /** What it is usually put on. */
  readonly surfaceId: string;
}

export const MOODS: readonly MoodWords[] = [
  {
    mood: 'dark',
    name: 'Dark and glossy',
    line: 'One light from above and behind, the drink bright in the dark.',
    surfaceId: 'sheet-acrylic-black',
  },
  {
    mood: 'airy',
    name: 'Pale and airy',
    line: 'Broad light, an even pale ground, soft shadows.',
    surfaceId: 'sweep-paper-bone',
  },
  {
    mood: 'window',
    name: 'By a window',
    line: 'One large soft light from the side, a card to open the other.',
    surfaceId: 'table-oak-light',
  },
  {
    mood: 'noon',
    name: 'Hard noon',
    line: 'One small hard sun, one long crisp shadow.',
    surfaceId: 'sweep-paper-mustard',
  },
  {
    mood: 'evening',
    name: 'Evening lamp',
    line: 'A small lantern in the picture, warm against the dusk.',
    surfaceId: 'table-walnut',
  },
];

/** Surfaces offered before the whole shelf: one of each look. */
export const SURFACE_CHOICES: readonly string[] = [
  'sheet-acrylic-black',
  'table-oak-light',
  'table-walnut',
  'table-stone-pale-veined',
  'table-slate',
  'table-linen-natural',
  'sweep-paper-bone',
  'sweep-paper-blush',
  'sweep-paper-sage',
  'sweep-paper-mustard',
  'sweep-paper-river',
  'table-tile-river-green',
];

/** Used part of the sensor for each format, millimetres: crops of a 36 x 24 mm sensor, upright where the picture is. */
export const FORMAT_SENSOR_MM: Readonly<Record<PictureFormat, readonly [widthMm: number, heightMm: number]>> = {
  '16:9': [36, 20.25],
  '3:2': [36, 24],
  '1:1': [24, 24],
  '4:5': [24, 30],
  '9:16': [20.25, 36],
};
export const PICTURE_FORMATS: readonly PictureFormat[] = ['16:9', '3:2', '1:1', '4:5', '9:16'];

export const FIRST_BRIEF: Brief = {
  drinkId: 'drink-iced-tea',
  glass: null,
  surfaceId: 'table-oak-light',
  mood: 'window',
  format: '3:2',
};
