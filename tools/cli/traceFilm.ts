import { availableParallelism } from 'node:os';
import type { Film, TraceJob } from '../../src/transport/contracts.ts';
import { createTracePool, type TraceProgress } from '../../src/transport/workers/tracePool.ts';
import { nodePort } from './nodePort.ts';

export interface TraceOptions {
  readonly job: TraceJob;
  /** Stop after this long, but never before every pixel has a sample. */
  readonly seconds?: number;
  /** Stops the trace; what there is by then is the result. */
  readonly interrupt: AbortSignal;
  readonly onProgress: (progress: TraceProgress, elapsedS: number) => void;
}

/**
 * Traces a film on all cores. Ends at the job's samples, at the time limit, or when interrupted; the film is then as far
 * as it got, pixels may differ in samples and none are thrown away.
 */
export async function traceFilm({ job, seconds, interrupt, onProgress }: TraceOptions): Promise<Film> {
  const pool = createTracePool({ workerCount: Math.max(1, availableParallelism()), spawn: nodePort });
  const startedMs = performance.now();
  const elapsedS = (): number => (performance.now() - startedMs) / 1000;
  let timer: NodeJS.Timeout | undefined;
  try {
    return await new Promise<Film>((resolve, reject) => {
      const stop = (): void => {
        handle.cancel();
        resolve(handle.film);
      };
      const handle = pool.start(job, {
        onProgress: (_film, progress) => {
          onProgress(progress, elapsedS());
          if (seconds === undefined || progress.samplesDone >= progress.samplesPerPixel) return;
          clearTimeout(timer);
          timer = setTimeout(stop, Math.max(0, (seconds - elapsedS()) * 1000));
        },
        onDone: resolve,
        onError: reject,
      });
      interrupt.addEventListener('abort', stop, { once: true });
    });
  } finally {
    clearTimeout(timer);
    pool.dispose();
  }
}
