import type { TraceJob } from '../contracts.ts';
import type { TileResult } from '../cpu/film.ts';
import type { Tile } from '../cpu/traceTile.ts';

/** What the pool says to a worker. `jobId` grows with every job; a worker answers for the job it was given last. */
export type ToWorker =
  | { readonly type: 'job'; readonly jobId: number; readonly layoutHash: string; readonly job: TraceJob }
  | { readonly type: 'tile'; readonly jobId: number; readonly tile: Tile };

/** What a worker answers. Buffers of `result` are transferred: they belong to the pool afterwards. */
export type FromWorker =
  | { readonly type: 'result'; readonly jobId: number; readonly result: TileResult }
  | { readonly type: 'error'; readonly jobId: number; readonly message: string; readonly stack: string };

/** The little of a worker that the pool needs, so that browser workers and Node threads both fit. */
export interface WorkerPort {
  post(message: ToWorker): void;
  onMessage(handler: (message: FromWorker) => void): void;
  onError(handler: (error: Error) => void): void;
  terminate(): void;
}
