import type { PathTracer } from '../cpu/pathTracer.ts';
import { createTracerFor, traceTile } from '../cpu/traceTile.ts';
import { LAYOUT_HASH } from '../layout/schema.ts';
import type { FromWorker, ToWorker } from './protocol.ts';

/** The worker's end: keeps one tracer, traces the tiles it is sent. The host file gives it a way to answer. */
export function createTileServer(
  answer: (message: FromWorker, transfer: ArrayBuffer[]) => void,
): (message: ToWorker) => void {
  let current: { jobId: number; layerCount: number; tracer: PathTracer } | null = null;
  return (message) => {
    try {
      if (message.type === 'job') {
        if (message.layoutHash !== LAYOUT_HASH)
          throw new Error(`World layout ${message.layoutHash} is not the worker's ${LAYOUT_HASH}: reload the page.`);
        current = {
          jobId: message.jobId,
          layerCount: message.job.world.layerIds.length,
          tracer: createTracerFor(message.job),
        };
        return;
      }
      if (current?.jobId !== message.jobId) return;
      const result = traceTile(current.tracer, current.layerCount, message.tile);
      answer({ type: 'result', jobId: message.jobId, result }, [
        result.layerSums.buffer as ArrayBuffer,
        result.featureSums.buffer as ArrayBuffer,
        result.luminanceSum.buffer as ArrayBuffer,
        result.luminanceSquareSum.buffer as ArrayBuffer,
      ]);
    } catch (cause) {
      const error = cause instanceof Error ? cause : new Error(String(cause));
      answer({ type: 'error', jobId: message.jobId, message: error.message, stack: error.stack ?? '' }, []);
    }
  };
}
