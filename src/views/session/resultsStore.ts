import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Finding } from '../../analysis/contracts.ts';

/** What the checks last said. Filled by the app from the check worker; views only read it. */
export interface ResultsState {
  readonly findings: readonly Finding[];
  readonly figures: Readonly<Record<string, unknown>>;
  /** True while a newer setup is being checked than the one that `findings` speaks of. */
  readonly checking: boolean;
  /** False until the first answer of a frame is in. */
  readonly hasResults: boolean;
  readonly error: string | null;
}

export const resultsStore = createStore<ResultsState>(() => ({
  findings: [],
  figures: {},
  checking: false,
  hasResults: false,
  error: null,
}));

export const useResults = <T>(selector: (state: ResultsState) => T): T => useStore(resultsStore, selector);
/** Findings of the frame on screen, worst first. */
export const useFindings = (): readonly Finding[] => useResults((state) => state.findings);
export const useFigures = (): Readonly<Record<string, unknown>> => useResults((state) => state.figures);
