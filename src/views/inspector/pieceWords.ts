import type { GlassProfile, Piece } from '../../scene/records.ts';

/** Plain trade words for what stands on the set. */
export const KIND_WORDS: Readonly<Record<Piece['kind'], string>> = {
  glass: 'Glass',
  tabletop: 'Table',
  sheet: 'Sheet on the table',
  sweep: 'Paper sweep',
  plinthBox: 'Plinth',
  plinthCylinder: 'Round plinth',
  wall: 'Wall',
};

export const SHAPE_WORDS: Readonly<Record<GlassProfile['shape'], string>> = {
  highball: 'highball',
  tumbler: 'tumbler',
  coupe: 'coupe',
  conicalStemmed: 'conical, stemmed',
  flute: 'flute',
  wine: 'wine glass',
  bottle: 'bottle',
};
