import { createStore } from 'zustand/vanilla';
import type { World } from '../../transport/contracts.ts';

/** The compiled set of the frame on screen. Built off the page's thread, by the app. */
export interface WorldState {
  readonly world: World | null;
  /** Trace key of the scene that `world` was built from; see `traceKey`. */
  readonly key: string | null;
}

export const worldStore = createStore<WorldState>(() => ({ world: null, key: null }));
