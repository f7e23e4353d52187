import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Vec3 } from '../../core/vec3.ts';

/** One end of the tape, and what it is held at. */
export interface TapeEnd {
  readonly pointM: Vec3;
  /** Null for a bare place. */
  readonly name: string | null;
}

export interface TapeState {
  /** True while the tape is in the hand: presses on drawing and picture then measure. */
  readonly out: boolean;
  readonly from: TapeEnd | null;
  readonly to: TapeEnd | null;
}

const PUT_AWAY: TapeState = { out: false, from: null, to: null };

export const tapeStore = createStore<TapeState>(() => PUT_AWAY);
export const useTape = <T>(selector: (state: TapeState) => T): T => useStore(tapeStore, selector);
export const putTapeAway = (): void => tapeStore.setState(PUT_AWAY);
export const toggleTape = (): void => (tapeStore.getState().out ? putTapeAway() : tapeStore.setState({ out: true }));

/** Holds the end of the tape somewhere; once both ends lie, the next press begins anew. */
export function layTape(end: TapeEnd): void {
  const { from, to } = tapeStore.getState();
  tapeStore.setState(from === null || to !== null ? { from: end, to: null } : { to: end });
}
