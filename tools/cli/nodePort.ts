import { Worker } from 'node:worker_threads';
import type { WorkerPort } from '../../src/transport/workers/protocol.ts';

/** A tracing thread of Node, for the same pool that drives the browser's workers. */
export function nodePort(): WorkerPort {
  const worker = new Worker(new URL('./traceThread.mjs', import.meta.url));
  return {
    post: (message) => worker.postMessage(message),
    onMessage: (handler) => {
      worker.on('message', handler);
    },
    onError: (handler) => {
      worker.on('error', handler);
    },
    terminate: () => {
      void worker.terminate();
    },
  };
}
