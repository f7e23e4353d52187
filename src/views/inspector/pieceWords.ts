import { DRESSING_WORDS } from '../../scene/dressingDefaults.ts';
import { capitalise, plainWords } from './fieldWords.ts';

/** Plain trade words for what stands on the set; a kind without words of its own is called by its name. */
const KIND_WORDS: Readonly<Record<string, string>> = {
  ...DRESSING_WORDS,
  glass: 'Glass',
  garnish: 'Garnish by itself',
  tabletop: 'Table',
  sheet: 'Sheet on the table',
  sweep: 'Paper sweep',
  plinthBox: 'Plinth',
  plinthCylinder: 'Round plinth',
  wall: 'Wall',
};

const SHAPE_WORDS: Readonly<Record<string, string>> = {
  conicalStemmed: 'conical, stemmed',
  wine: 'wine glass',
  shot: 'shot glass',
  copa: 'balloon glass',
  doubleTumbler: 'double tumbler',
  ownProfile: 'own profile',
};

export const kindWords = (kind: string): string => KIND_WORDS[kind] ?? capitalise(plainWords(kind));
export const shapeWords = (shape: string): string => SHAPE_WORDS[shape] ?? plainWords(shape);
