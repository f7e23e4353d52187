import { createContext, useContext } from 'react';
import { invariant } from '../../core/result.ts';

export interface DemoEntry {
  /** File name without its ending; also the value of `?demo=`. */
  readonly name: string;
  readonly title: string;
  readonly frames: string;
  /** The variant that a photographer would put right. */
  readonly wrong: boolean;
}

/** What can leave the program as a file. */
export type HandOverKind =
  | 'papersA4'
  | 'papersLetter'
  | 'plan'
  | 'schedule'
  | 'meterSheet'
  | 'findings'
  | 'kitList'
  | 'client'
  | 'setup'
  | 'gltf';

/** What only the app can do (files, storage), handed to the views that have a button for it. */
export interface Services {
  /** False where the browser draws no 3D: the set and the quick picture then say so; the traced frame still works. */
  readonly webgl2: boolean;
  readonly demos: readonly DemoEntry[];
  openDemo(name: string): Promise<void>;
  openSetupFile(): Promise<void>;
  saveSetupFile(): Promise<void>;
  savePicture(png: Blob, fileName: string): Promise<void>;
  /** Makes a file and downloads it. `words` say in the message strip what is being made. */
  handOver(kind: HandOverKind, words: string): Promise<void>;
}

export const ServicesContext = createContext<Services | null>(null);

export function useServices(): Services {
  const services = useContext(ServicesContext);
  invariant(services, () => 'views that use services stand inside ServicesContext');
  return services;
}
