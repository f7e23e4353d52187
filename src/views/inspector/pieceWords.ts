/** Plain trade words for what stands on the set; a kind without words of its own is called by its name. */
const KIND_WORDS: Readonly<Record<string, string>> = {
  glass: 'Glass',
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

const plain = (name: string): string => name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
const capitalise = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export const kindWords = (kind: string): string => KIND_WORDS[kind] ?? capitalise(plain(kind));
export const shapeWords = (shape: string): string => SHAPE_WORDS[shape] ?? plain(shape);
