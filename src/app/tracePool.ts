import { browserPort } from '../transport/workers/browserPort.ts';
import { createTracePool, type TracePool } from '../transport/workers/tracePool.ts';

const MAX_TRACE_WORKERS = 12;

/** Workers for tracing in this browser: one core is left for the page and the checks. */
export function createBrowserTracePool(): TracePool {
  const cores = navigator.hardwareConcurrency || 4;
  return createTracePool({
    workerCount: Math.max(1, Math.min(MAX_TRACE_WORKERS, cores - 1)),
    spawn: () =>
      browserPort(new Worker(new URL('../transport/workers/traceWorker.ts', import.meta.url), { type: 'module' })),
  });
}
