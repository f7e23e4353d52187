import { availableParallelism } from 'node:os';
import type { TraceScene } from '../../src/deliverables/traced/scenePictures.ts';
import type { Film } from '../../src/transport/contracts.ts';
import { createTracePool } from '../../src/transport/workers/tracePool.ts';
import { nodePort } from './nodePort.ts';
import { createProgressLine } from './progressLine.ts';

/** Traces on all cores, one job after another; the threads start with the first and stay until `dispose`. */
export function createPoolTracer(): { readonly trace: TraceScene; dispose(): void } {
  const pool = createTracePool({ workerCount: Math.max(1, availableParallelism()), spawn: nodePort });
  const line = createProgressLine(process.stderr);
  let last: Promise<unknown> = Promise.resolve();

  const run: TraceScene = async (job, what) => {
    const startedMs = performance.now();
    const film = await new Promise<Film>((resolve, reject) => {
      pool.start(job, {
        onProgress: (_film, { samplesDone, samplesPerPixel }) => {
          const elapsedS = (performance.now() - startedMs) / 1000;
          line.show(`${what}: ${samplesDone} of ${samplesPerPixel} samples, ${elapsedS.toFixed(0)} s`, elapsedS);
        },
        onDone: resolve,
        onError: reject,
      });
    });
    line.end();
    return film;
  };
  return {
    // The pool drops a job when another is started.
    trace: (job, what) => {
      const next = last.then(() => run(job, what));
      last = next.catch(() => undefined);
      return next;
    },
    dispose: () => pool.dispose(),
  };
}
