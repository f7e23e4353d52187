import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { TracedJob, TracedKind, TracedProgress } from '../session/index.ts';
import type { MeterCells, MeterUnit } from './meterCells.ts';

export interface HandOverState {
  /** Which dialog is open. */
  readonly dialog: TracedKind | 'meter' | null;
  /** What is being traced for a file, and the way to stop it. */
  readonly running: { readonly words: string; readonly progress: TracedProgress | null; stop(): void } | null;
  /** As it was last asked for. */
  readonly job: TracedJob;
  /** What a meter read on set, by frame; kept while the page is open. */
  readonly cellsByFrame: Readonly<Record<string, MeterCells>>;
  readonly meterUnit: MeterUnit;
  readonly repeatStops: number;
}

const FIRST_JOB: TracedJob = {
  kind: 'picture',
  widthPx: 1920,
  samples: 128,
  format: 'jpg',
  paper: 'a4',
  turnFrames: 36,
  markHighlight: false,
  markRunOut: false,
  showNotes: false,
};

export const handOverStore = createStore<HandOverState>(() => ({
  dialog: null,
  running: null,
  job: FIRST_JOB,
  cellsByFrame: {},
  meterUnit: 'lux',
  repeatStops: 0.1,
}));

export const useHandOver = <T>(selector: (state: HandOverState) => T): T => useStore(handOverStore, selector);

export const openHandOver = (dialog: HandOverState['dialog']): void => handOverStore.setState({ dialog });

export const changeJob = (patch: Partial<TracedJob>): void =>
  handOverStore.setState(({ job }) => ({ job: { ...job, ...patch } }));

export const setMeterCells = (frameId: string, cells: MeterCells): void =>
  handOverStore.setState(({ cellsByFrame }) => ({ cellsByFrame: { ...cellsByFrame, [frameId]: cells } }));
