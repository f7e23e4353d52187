import type { Film } from '../../transport/contracts.ts';
import type { DenoiseAnswer, DenoiseRequest } from '../../transport/workers/denoiseWorker.ts';
import { getLayerGains, sessionStore } from '../session/index.ts';
import { traceStore } from './traceStore.ts';

/**
 * Keeps a smoothed copy of the film on screen while the session asks for one: one film at a time in the worker, then the
 * newest. The copy stands until a newer one of the same film replaces it; figures never read it.
 */
export function createSmoother(worker: Worker): { dispose(): void } {
  let busy: { readonly id: number; readonly film: Film } | null = null;
  let behind = false;
  let nextId = 1;

  const ask = () => {
    const { film, samples } = traceStore.getState();
    if (!sessionStore.getState().smooth || film === null || samples < 2) return;
    if (busy !== null) {
      behind = true;
      return;
    }
    behind = false;
    busy = { id: nextId++, film };
    // The message copies the film: it goes on growing here.
    const request: DenoiseRequest = { id: busy.id, film, layerGains: getLayerGains() };
    worker.postMessage(request);
  };

  worker.onmessage = (event: MessageEvent<DenoiseAnswer>) => {
    if (busy === null || event.data.id !== busy.id) return;
    const { film } = busy;
    busy = null;
    if (traceStore.getState().film === film)
      traceStore.setState(({ filmRevision }) => ({
        smooth: { of: film, film: event.data.film },
        filmRevision: filmRevision + 1,
      }));
    if (behind) ask();
  };
  worker.onerror = () => {
    // Smoothing is a comfort: without it the picture is shown as traced.
    busy = null;
    sessionStore.setState({ smooth: false });
  };

  const unsubscribe = [
    traceStore.subscribe((state, before) => {
      if (state.film !== before.film || state.samples !== before.samples) ask();
    }),
    sessionStore.subscribe((state, before) => {
      if (state.smooth !== before.smooth) {
        traceStore.setState(({ filmRevision }) => ({ filmRevision: filmRevision + 1 }));
        ask();
      }
    }),
  ];
  return {
    dispose() {
      for (const off of unsubscribe) off();
      worker.terminate();
    },
  };
}
