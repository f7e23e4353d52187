import type { Action } from './action.ts';

const fold = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();

/**
 * Actions that hold every word of the query in their name or part, best first: names that begin with it, names with a word
 * that does, the rest in their own order. An empty query finds all.
 */
export function searchActions(actions: readonly Action[], query: string): readonly Action[] {
  const words = fold(query).split(/\s+/).filter(Boolean);
  if (words.length === 0) return actions;
  const rank = ({ name, part }: Action): number | null => {
    const text = fold(name);
    if (!words.every((word) => `${text} ${fold(part)}`.includes(word))) return null;
    if (text.startsWith(words.join(' '))) return 0;
    return words.every((word) => text.split(/[\s:,]+/).some((start) => start.startsWith(word))) ? 1 : 2;
  };
  return actions
    .flatMap((action) => {
      const at = rank(action);
      return at === null ? [] : [{ action, at }];
    })
    .sort((a, b) => a.at - b.at)
    .map(({ action }) => action);
}
