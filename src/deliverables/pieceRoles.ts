import type { Piece, PieceKind } from '../scene/records.ts';

/** What things lie on: a stand can't stand in them. */
const TABLES: ReadonlySet<PieceKind> = new Set<PieceKind>(['tabletop', 'sweep', 'sheet', 'lightTable']);
/** Upright things behind the subject. */
const BACKDROPS: ReadonlySet<PieceKind> = new Set<PieceKind>([
  'wall',
  'slattedWall',
  'mouldedWall',
  'sweep',
  'reedScreen',
  'slatScreen',
]);
/** What the subject stands on or before, over the table. */
const BASES: ReadonlySet<PieceKind> = new Set<PieceKind>([
  'sheet',
  'plinthBox',
  'plinthCylinder',
  'step',
  'arch',
  'lightTable',
]);

export const isTable = ({ kind }: Piece): boolean => TABLES.has(kind);
export const isBackdrop = ({ kind }: Piece): boolean => BACKDROPS.has(kind);
export const isBase = ({ kind }: Piece): boolean => BASES.has(kind);
/** Stands up by itself and wants a brace: walls, screens, cutters. */
export const isUpright = (piece: Piece): boolean =>
  (isBackdrop(piece) && piece.kind !== 'sweep') || piece.kind === 'windowCutter' || piece.kind === 'dappleCutter';
