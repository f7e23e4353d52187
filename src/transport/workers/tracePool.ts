import type { Film, TraceJob } from '../contracts.ts';
import { addTile, createFilm, relativeError } from '../cpu/film.ts';
import type { Tile } from '../cpu/traceTile.ts';
import { LAYOUT_HASH } from '../layout/schema.ts';
import type { FromWorker, WorkerPort } from './protocol.ts';

/** Square tiles of this many pixels a side. */
const TILE_PX = 48;
/** Samples a pixel gets in the first passes; later ones as many as the last. */
const PASS_SAMPLES = [1, 1, 2, 4, 8];

export interface TraceProgress {
  /** Samples that every pixel has by now. */
  readonly samplesDone: number;
  readonly samplesPerPixel: number;
  /** Estimated grain: root mean square error of a pixel over the mean of the frame. */
  readonly relativeError: number;
  /** Samples dropped because they were not finite numbers. */
  readonly dropped: number;
}

export interface TraceEvents {
  /** After each finished pass over the frame. The film is live: copy what must not change. */
  onProgress?(film: Film, progress: TraceProgress): void;
  onDone?(film: Film, progress: TraceProgress): void;
  onError?(error: Error): void;
}

export interface TraceHandle {
  readonly film: Film;
  /** Stops at once; tiles still under way are thrown away. */
  cancel(): void;
}

export interface TracePool {
  /** Starts a job; a job still running is cancelled first. */
  start(job: TraceJob, events: TraceEvents): TraceHandle;
  dispose(): void;
}

interface Run {
  readonly id: number;
  readonly job: TraceJob;
  readonly film: Film;
  readonly events: TraceEvents;
  pass: number;
  passSamples: number;
  queue: Tile[];
  pending: number;
  samplesDone: number;
  dropped: number;
}

/**
 * Spreads a job's tiles over workers, pass by pass, and adds up what comes back. Every sample's random numbers depend on
 * the seed, its pixel and its number alone, so the film is the same however many workers there are, up to the order of
 * single-precision sums.
 */
export function createTracePool(options: { workerCount: number; spawn: () => WorkerPort }): TracePool {
  const ports: { port: WorkerPort; busyWith: number; jobSent: number }[] = [];
  let run: Run | null = null;
  let nextId = 1;
  let disposed = false;

  const fail = (error: Error): void => {
    const failed = run;
    run = null;
    failed?.events.onError?.(error);
  };

  const receive = (index: number, message: FromWorker): void => {
    const slot = ports[index];
    slot.busyWith = 0;
    if (run && message.jobId === run.id) {
      if (message.type === 'error') {
        const error = new Error(message.message);
        error.stack = message.stack;
        fail(error);
        return;
      }
      addTile(run.film, message.result);
      run.dropped += message.result.dropped;
      run.pending--;
      if (run.pending === 0 && run.queue.length === 0) endPass(run);
    }
    feed();
  };

  const endPass = (r: Run): void => {
    r.samplesDone += r.passSamples;
    const progress: TraceProgress = {
      samplesDone: r.samplesDone,
      samplesPerPixel: r.job.samplesPerPixel,
      relativeError: relativeError(r.film),
      dropped: r.dropped,
    };
    r.events.onProgress?.(r.film, progress);
    if (run !== r) return;
    if (r.samplesDone >= r.job.samplesPerPixel) {
      run = null;
      r.events.onDone?.(r.film, progress);
      return;
    }
    r.pass++;
    beginPass(r);
  };

  const beginPass = (r: Run): void => {
    const planned = PASS_SAMPLES[Math.min(r.pass, PASS_SAMPLES.length - 1)];
    r.passSamples = Math.min(planned, r.job.samplesPerPixel - r.samplesDone);
    r.queue = tilesOf(r.job.widthPx, r.job.heightPx, r.samplesDone, r.passSamples);
  };

  const feed = (): void => {
    for (const slot of ports) {
      if (!run || run.queue.length === 0) return;
      if (slot.busyWith !== 0) continue;
      if (slot.jobSent !== run.id) {
        slot.port.post({ type: 'job', jobId: run.id, layoutHash: LAYOUT_HASH, job: run.job });
        slot.jobSent = run.id;
      }
      const tile = run.queue.shift();
      if (!tile) return;
      slot.busyWith = run.id;
      run.pending++;
      slot.port.post({ type: 'tile', jobId: run.id, tile });
    }
  };

  const ensureWorkers = (): void => {
    while (ports.length < options.workerCount) {
      const port = options.spawn();
      const index = ports.length;
      ports.push({ port, busyWith: 0, jobSent: 0 });
      port.onMessage((message) => receive(index, message));
      port.onError((error) => {
        if (!disposed) fail(error);
      });
    }
  };

  return {
    start(job, events) {
      if (disposed) throw new Error('The trace pool has been shut down.');
      const id = nextId++;
      const r: Run = {
        id,
        job,
        film: createFilm(job.widthPx, job.heightPx, job.world.layerIds),
        events,
        pass: 0,
        passSamples: 0,
        queue: [],
        pending: 0,
        samplesDone: 0,
        dropped: 0,
      };
      run = r;
      beginPass(r);
      ensureWorkers();
      feed();
      return {
        film: r.film,
        cancel: () => {
          if (run === r) run = null;
        },
      };
    },
    dispose() {
      disposed = true;
      run = null;
      for (const { port } of ports) port.terminate();
      ports.length = 0;
    },
  };
}

/** Tiles of one pass, from the middle of the frame outward: the hero first. */
export function tilesOf(widthPx: number, heightPx: number, firstSample: number, samples: number): Tile[] {
  const tiles: Tile[] = [];
  for (let y = 0; y < heightPx; y += TILE_PX)
    for (let x = 0; x < widthPx; x += TILE_PX)
      tiles.push({
        x,
        y,
        widthPx: Math.min(TILE_PX, widthPx - x),
        heightPx: Math.min(TILE_PX, heightPx - y),
        firstSample,
        samples,
      });
  const fromMiddle = (t: Tile): number =>
    Math.hypot(t.x + t.widthPx / 2 - widthPx / 2, t.y + t.heightPx / 2 - heightPx / 2);
  return tiles.sort((a, b) => fromMiddle(a) - fromMiddle(b));
}
