import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { FoundBody } from './readBody.ts';

/** A body that waits for its units. */
export interface WaitingBody {
  readonly name: string;
  readonly body: FoundBody;
}

export const bringInStore = createStore<{ readonly waiting: WaitingBody | null }>(() => ({ waiting: null }));
export const useBringIn = (): WaitingBody | null => useStore(bringInStore, (state) => state.waiting);
