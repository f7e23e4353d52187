import { InputError } from './inputError.ts';

const MARKS = ['highlight', 'run-out'] as const;

/** What is drawn into the pictures of a turn, from an option's text. */
export function readMarks(text: string | undefined): {
  readonly markHighlight: boolean;
  readonly markRunOut: boolean;
} {
  const names = text === undefined ? [] : text.split(',').map((name) => name.trim());
  const unknown = names.find((name) => !MARKS.some((known) => known === name));
  if (unknown !== undefined) throw new InputError(`--mark ${unknown}: there are ${MARKS.join(', ')}`);
  return { markHighlight: names.includes('highlight'), markRunOut: names.includes('run-out') };
}
