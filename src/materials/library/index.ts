import type { LibraryFinish } from './libraryFinish.ts';
import { METALS } from './metals.ts';
import { NATURALS } from './naturals.ts';
import { PAPERS } from './papers.ts';
import { SHEETS } from './sheets.ts';

export type { FinishGroup, LibraryFinish } from './libraryFinish.ts';

/** Surfaces by plain trade names. */
export const FINISH_LIBRARY: readonly LibraryFinish[] = [...SHEETS, ...PAPERS, ...NATURALS, ...METALS];

/** The finish of an id; undefined for an unknown one. */
export const findLibraryFinish = (id: string): LibraryFinish | undefined =>
  FINISH_LIBRARY.find((entry) => entry.id === id);
