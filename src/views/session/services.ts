import { createContext, useContext } from 'react';
import { invariant } from '../../core/result.ts';
import type { PredictedReading } from '../../deliverables/sheets/predictedReadings.ts';
import type { Setup } from '../../document/setup.ts';

export interface DemoEntry {
  /** File name without its ending; also the value of `?demo=`. */
  readonly name: string;
  readonly title: string;
  readonly frames: string;
  /** The variant that a photographer would put right. */
  readonly wrong: boolean;
}

/** What can leave the program as a file. */
export type HandOverKind = 'papersA4' | 'papersLetter' | 'plan' | 'client' | 'setup' | 'gltf' | 'tables' | TableKind;

/** Tables that go out as CSV, one at a time or all in one archive. */
export type TableKind =
  | 'schedule'
  | 'gripSchedule'
  | 'meterSheet'
  | 'eachLight'
  | 'kitList'
  | 'stands'
  | 'power'
  | 'circuits'
  | 'buildOrder'
  | 'shotList'
  | 'heroClock'
  | 'cautions'
  | 'findings';

/** What is traced anew before it goes out: how large, how clean, and what is made of it. */
export interface TracedJob {
  readonly kind: TracedKind;
  readonly widthPx: number;
  readonly samples: number;
  /** Of a single picture. */
  readonly format: 'png' | 'jpg' | 'tif';
  /** Of sheets. */
  readonly paper: 'a4' | 'letter';
  /** Of a turn: pictures of one round, and what is drawn into them. */
  readonly turnFrames: number | 'all';
  readonly markHighlight: boolean;
  readonly markRunOut: boolean;
  /** Of a client page: the brief's notes too. */
  readonly showNotes: boolean;
}
export type TracedKind = 'picture' | 'turn' | 'clientPage' | 'contactSheet' | 'lightByLight' | 'beforeAfter';

export interface TracedProgress {
  /** 0 to 1. */
  readonly share: number;
  readonly words: string;
}

/** A setup kept in this browser. */
export interface KeptSetup {
  readonly id: string;
  readonly title: string;
  readonly frameCount: number;
  readonly changedAtMs: number;
  /** Small picture of its first frame as a data address; null where none was taken yet. */
  readonly picture: string | null;
  /** It is the one on screen. */
  readonly open: boolean;
}

/** The setups of this browser; null in {@link Services} where it keeps nothing. */
export interface KeptSetups {
  list(): Promise<readonly KeptSetup[]>;
  open(id: string): Promise<void>;
  duplicate(id: string): Promise<void>;
  rename(id: string, title: string): Promise<void>;
  /** @returns puts it back. */
  remove(id: string): Promise<() => Promise<void>>;
}

/** What only the app can do (files, storage), handed to the views that have a button for it. */
export interface Services {
  /** False where the browser draws no 3D: the set and the quick picture then say so; the traced frame still works. */
  readonly webgl2: boolean;
  readonly demos: readonly DemoEntry[];
  openDemo(name: string): Promise<void>;
  readonly kept: KeptSetups | null;
  /** Opens a new setup in place of the open one, which is kept. */
  startSetup(setup: Setup): void;
  openSetupFile(): Promise<void>;
  saveSetupFile(): Promise<void>;
  savePicture(png: Blob, fileName: string): Promise<void>;
  /** Makes a file and downloads it. `words` say in the message strip what is being made. */
  handOver(kind: HandOverKind, words: string): Promise<void>;
  /** Traces, makes a file and downloads it; stops when the signal says so. */
  handOverTraced(job: TracedJob, onProgress: (progress: TracedProgress) => void, stop: AbortSignal): Promise<void>;
  /** What a meter should read in the frame on screen, off the page's thread. */
  predictMeter(): Promise<readonly PredictedReading[]>;
  /** Copies an address that opens the setup, where it is small enough for one. */
  copyShareLink(): Promise<void>;
}

export const ServicesContext = createContext<Services | null>(null);

export function useServices(): Services {
  const services = useContext(ServicesContext);
  invariant(services, () => 'views that use services stand inside ServicesContext');
  return services;
}
