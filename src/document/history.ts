import type { SetupDiff } from './diff.ts';

export interface HistoryEntry {
  readonly label: string;
  readonly diff: SetupDiff;
}

/** Undo and redo stacks, newest last. Immutable: each step gives a new one. */
export interface History {
  readonly done: readonly HistoryEntry[];
  readonly undone: readonly HistoryEntry[];
}

/** Older steps than this many are forgotten. */
export const MAX_HISTORY_ENTRIES = 1000;

export const EMPTY_HISTORY: History = { done: [], undone: [] };

/** Adds a step; what was undone before can no longer be redone. */
export const recordStep = (history: History, entry: HistoryEntry): History => ({
  done: [...history.done, entry].slice(-MAX_HISTORY_ENTRIES),
  undone: [],
});

/** Takes the newest step back; null when there is none. */
export function stepBack(history: History): { readonly entry: HistoryEntry; readonly history: History } | null {
  const entry = history.done.at(-1);
  if (!entry) return null;
  return { entry, history: { done: history.done.slice(0, -1), undone: [...history.undone, entry] } };
}

/** Plays the step last taken back once more; null when there is none. */
export function stepForward(history: History): { readonly entry: HistoryEntry; readonly history: History } | null {
  const entry = history.undone.at(-1);
  if (!entry) return null;
  return { entry, history: { done: [...history.done, entry], undone: history.undone.slice(0, -1) } };
}
