import type { FromWorker, WorkerPort } from './protocol.ts';

/** Wraps a browser worker made from `traceWorker.ts`. */
export function browserPort(worker: Worker): WorkerPort {
  return {
    post: (message) => worker.postMessage(message),
    onMessage: (handler) => {
      worker.onmessage = (event: MessageEvent<FromWorker>) => handler(event.data);
    },
    onError: (handler) => {
      worker.onerror = (event) => handler(new Error(event.message || 'The tracing worker could not start.'));
    },
    terminate: () => worker.terminate(),
  };
}
