import type { Setup } from '../../document/setup.ts';
import { documentStore } from '../../views/session/index.ts';

let loadCount = -1;
let opened: Setup | null = null;

/** Remembers every setup as it is opened; called once when the app starts. */
export function watchOpenedSetups(): void {
  const remember = (): void => {
    const state = documentStore.getState();
    if (state.loadCount === loadCount) return;
    loadCount = state.loadCount;
    opened = state.setup;
  };
  remember();
  documentStore.subscribe(remember);
}

/** The open setup as it was when it was opened, before any change. */
export const setupAsOpened = (): Setup => opened ?? documentStore.getState().setup;
