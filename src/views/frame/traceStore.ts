import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Film } from '../../transport/contracts.ts';

/** Where the traced picture stands. */
export type TracePhase = 'waiting' | 'compiling' | 'tracing' | 'done' | 'held' | 'failed';

export interface TraceState {
  readonly phase: TracePhase;
  /** Whole samples per pixel that the film on screen holds, and how many it will. */
  readonly samples: number;
  readonly targetSamples: number;
  /** Estimated relative standard error of a mid-tone pixel, 0..1; null while too few samples tell. */
  readonly grain: number | null;
  /** The film on screen: finished, refining, or a stand-in of the last trace that shows the same set. */
  readonly film: Film | null;
  /** Smoothed copy of a film; shown only where `of` is the film on screen. */
  readonly smooth: { readonly of: Film; readonly film: Film } | null;
  /** Counts film updates, so that painters know that the same film object has grown. */
  readonly filmRevision: number;
  /** Traces begun since the page opened. A changed dimmer must not move it. */
  readonly tracesStarted: number;
  readonly error: string | null;
}

export const INITIAL_TRACE: TraceState = {
  phase: 'waiting',
  samples: 0,
  targetSamples: 0,
  grain: null,
  film: null,
  smooth: null,
  filmRevision: 0,
  tracesStarted: 0,
  error: null,
};

export const traceStore = createStore<TraceState>(() => INITIAL_TRACE);
export const useTrace = <T>(selector: (state: TraceState) => T): T => useStore(traceStore, selector);

/** The state of the trace as a sentence for the top bar. */
export function describeTrace(state: Pick<TraceState, 'phase' | 'samples' | 'targetSamples' | 'grain'>): string {
  switch (state.phase) {
    case 'waiting':
      return 'Nothing traced yet';
    case 'compiling':
      return 'Building the set';
    case 'held':
      return 'Held while you move things';
    case 'failed':
      return 'Quick picture only';
    case 'tracing':
      return state.samples === 0
        ? 'First light'
        : `${state.samples} of ${state.targetSamples} samples${grainWords(state.grain)}`;
    case 'done':
      return `Traced, ${state.samples} samples${grainWords(state.grain)}`;
  }
}

const grainWords = (grain: number | null): string => (grain === null ? '' : `, about ${formatPercent(grain)} grain`);

const formatPercent = (share: number): string => {
  const percent = share * 100;
  return percent >= 10 ? `${Math.round(percent)} %` : `${percent.toFixed(1)} %`;
};
