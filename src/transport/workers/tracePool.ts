import type { Film, TraceJob } from '../contracts.ts';
import { addTile, createFilm, relativeError } from '../cpu/film.ts';
import { frameMean, planAdaptivePass, type TilePlan, tileNoise, tilesOfFrame } from '../cpu/planTiles.ts';
import type { Tile } from '../cpu/traceTile.ts';
import { LAYOUT_HASH } from '../layout/schema.ts';
import type { FromWorker, WorkerPort } from './protocol.ts';

/** Samples that every pixel gets in the first passes; from then on effort goes where the noise is. */
const EVEN_PASSES = [1, 1, 2, 4, 8];

export interface TraceProgress {
  /** Samples that a pixel has by now, on average over the frame. */
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
  readonly tiles: readonly TilePlan[];
  pass: number;
  /** First set of photons that no adaptive pass has used yet. */
  nextPhotonSet: number;
  queue: Tile[];
  pending: number;
  dropped: number;
}

/**
 * Spreads a job's tiles over workers, pass by pass, and adds up what comes back. Every sample's random numbers depend on
 * the seed, its pixel and its number alone (and photons on the plan of the passes), so the film is the same however many workers
 * there are, up to the order of single-precision sums.
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
    const samplesDone = meanSamples(r);
    const progress: TraceProgress = {
      samplesDone: Math.floor(samplesDone + 1e-9),
      samplesPerPixel: r.job.samplesPerPixel,
      relativeError: relativeError(r.film),
      dropped: r.dropped,
    };
    r.events.onProgress?.(r.film, progress);
    if (run !== r) return;
    const clean = r.job.targetRelativeError !== undefined && progress.relativeError <= r.job.targetRelativeError;
    if (samplesDone >= r.job.samplesPerPixel - 1e-9 || (clean && r.pass >= EVEN_PASSES.length - 1)) {
      run = null;
      r.events.onDone?.(r.film, progress);
      return;
    }
    r.pass++;
    beginPass(r);
  };

  const beginPass = (r: Run): void => {
    const left = r.job.samplesPerPixel - meanSamples(r);
    if (r.pass < EVEN_PASSES.length) {
      const samples = Math.min(EVEN_PASSES[r.pass], Math.ceil(left));
      r.queue = r.tiles.map((tile) => ({ ...tile.area, firstSample: tile.samples, samples }));
    } else {
      const mean = frameMean(r.film);
      for (const tile of r.tiles) tile.noise = tileNoise(r.film, tile.area, mean);
      const work = planAdaptivePass(r.tiles, left, r.nextPhotonSet);
      for (const { photonSet } of work) r.nextPhotonSet = Math.max(r.nextPhotonSet, photonSet + 1);
      r.queue = work;
    }
    const planOf = new Map(r.tiles.map((tile) => [`${tile.area.x},${tile.area.y}`, tile]));
    for (const work of r.queue) {
      const plan = planOf.get(`${work.x},${work.y}`);
      if (plan) plan.samples += work.samples;
    }
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
        tiles: tilesOfFrame(job.widthPx, job.heightPx),
        pass: 0,
        nextPhotonSet: EVEN_PASSES.length,
        queue: [],
        pending: 0,
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

/** Samples a pixel has on average, by area. */
function meanSamples(r: Run): number {
  let sum = 0;
  for (const { area, samples } of r.tiles) sum += area.widthPx * area.heightPx * samples;
  return sum / (r.job.widthPx * r.job.heightPx);
}
