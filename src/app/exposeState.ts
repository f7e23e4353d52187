import { traceStore } from '../views/frame/index.ts';
import { documentStore, resultsStore, sessionStore } from '../views/session/index.ts';

declare global {
  interface Window {
    /** What the page knows, to read: for tests of the whole page, and for the curious. */
    __keyglass?: {
      readonly document: () => ReturnType<typeof documentStore.getState>;
      readonly session: () => ReturnType<typeof sessionStore.getState>;
      readonly results: () => ReturnType<typeof resultsStore.getState>;
      readonly trace: () => Omit<ReturnType<typeof traceStore.getState>, 'film'>;
    };
  }
}

export function exposeState(): void {
  window.__keyglass = {
    document: documentStore.getState,
    session: sessionStore.getState,
    results: resultsStore.getState,
    trace: () => {
      const { film: _film, ...rest } = traceStore.getState();
      return rest;
    },
  };
}
