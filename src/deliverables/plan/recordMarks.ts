/** Letters without I and O, which read as figures. */
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** The lists of a setup whose records carry marks. */
export interface MarkedLists {
  readonly fixtures: readonly { readonly id: string }[];
  readonly grip: readonly { readonly id: string }[];
}

/**
 * The mark of every light and sheet on all papers of a setup: lights 1, 2, 3, sheets of grip A, B, C, in the order of the
 * setup. A record has the same mark in every frame, also where others are hidden.
 */
export function recordMarks(setup: MarkedLists): ReadonlyMap<string, string> {
  const marks = new Map<string, string>();
  setup.fixtures.forEach((fixture, i) => {
    marks.set(fixture.id, String(i + 1));
  });
  setup.grip.forEach((item, i) => {
    const round = Math.floor(i / LETTERS.length);
    marks.set(item.id, LETTERS[i % LETTERS.length] + (round === 0 ? '' : String(round + 1)));
  });
  return marks;
}
