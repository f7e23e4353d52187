import { serializeSetup } from '../../document/codec.ts';
import type { Setup } from '../../document/setup.ts';

/** The whole setup in one file, measured distributions and all: what Keyglass itself opens. */
export const setupFile = (setup: Setup): { readonly fileName: string; readonly text: string } => ({
  fileName: `${fileStem(setup.title)}.json`,
  text: serializeSetup(setup),
});

/** Names that Windows keeps for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/;

/**
 * A name that every system takes as part of a file name: lower-case letters, digits and dashes, at most 60 of them.
 * 'untitled' when nothing is left.
 */
export function fileStem(name: string): string {
  const stem = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  if (stem === '') return 'untitled';
  return RESERVED.test(stem) ? `${stem}-setup` : stem;
}
