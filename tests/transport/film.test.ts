import { describe, expect, it } from 'vitest';
import {
  compileWorld,
  composeFilm,
  createTileServer,
  createTracePool,
  type Film,
  type TraceJob,
  type WorkerPort,
} from '../../src/transport/index.ts';
import type { FromWorker } from '../../src/transport/workers/protocol.ts';
import { TABLETOP_N, tabletopSet, tabletopView } from '../reference/tabletop/scene.ts';

/** A worker in this very thread, answering in later turns. */
function localPort(): WorkerPort {
  let handler: (message: FromWorker) => void = () => {};
  const serve = createTileServer((message) => queueMicrotask(() => handler(message)));
  return {
    post: (message) => queueMicrotask(() => serve(message)),
    onMessage: (h) => {
      handler = h;
    },
    onError: () => {},
    terminate: () => {},
  };
}

const job = (overrides: Partial<TraceJob> = {}): TraceJob => ({
  world: compileWorld(tabletopSet(TABLETOP_N), { rawColour: true }),
  view: tabletopView(),
  widthPx: 80,
  heightPx: 60,
  seed: 4,
  samplesPerPixel: 4,
  maxDepth: 12,
  layerGains: new Float32Array(6).fill(1),
  ...overrides,
});

const run = (traceJob: TraceJob, workerCount: number): Promise<Film> =>
  new Promise((resolve, reject) => {
    const pool = createTracePool({ workerCount, spawn: localPort });
    pool.start(traceJob, { onDone: (film) => resolve(film), onError: reject });
  });

describe('film and pool', () => {
  it('gives the same film with one worker and with three', async () => {
    const [one, three] = await Promise.all([run(job(), 1), run(job(), 3)]);
    expect(three.samples).toEqual(one.samples);
    expect([...one.samples].every((n) => n === 4)).toBe(true);
    for (const [l, layer] of one.layers.entries()) expect(three.layers[l]).toEqual(layer);
  });

  it('gives another seed another film', async () => {
    const [a, b] = await Promise.all([run(job(), 1), run(job({ seed: 5 }), 1)]);
    expect(a.layers[0]).not.toEqual(b.layers[0]);
  });

  it('keeps each fixture in its own layer: gains 1, 1 equal the sum of solo pictures', async () => {
    const film = await run(job(), 2);
    const both = composeFilm(film, Float32Array.of(1, 1, 1, 1, 1, 1));
    const first = composeFilm(film, Float32Array.of(1, 1, 1, 0, 0, 0));
    const second = composeFilm(film, Float32Array.of(0, 0, 0, 1, 1, 1));
    for (let i = 0; i < both.length; i++)
      expect(Math.abs(both[i] - first[i] - second[i])).toBeLessThan(1e-5 * (1 + both[i]));
    expect(first.some((v) => v > 0)).toBe(true);
    expect(second.some((v) => v > 0)).toBe(true);
  });

  it('dims by one stop to exactly half', async () => {
    const film = await run(job(), 1);
    const full = composeFilm(film, Float32Array.of(1, 1, 1, 0, 0, 0));
    const half = composeFilm(film, Float32Array.of(0.5, 0.5, 0.5, 0, 0, 0));
    for (let i = 0; i < full.length; i++) expect(half[i]).toBeCloseTo(full[i] / 2, 6);
  });

  it('does not let gains change what a layer converges to, only how the samples are spread', async () => {
    const even = await run(job({ samplesPerPixel: 64, widthPx: 48, heightPx: 36 }), 1);
    const skewed = await run(
      job({ samplesPerPixel: 64, widthPx: 48, heightPx: 36, layerGains: Float32Array.of(1, 1, 1, 0, 0, 0) }),
      1,
    );
    const mean = (film: Film, l: number) => {
      const gains = new Float32Array(6);
      gains.fill(1, l * 3, l * 3 + 3);
      return composeFilm(film, gains).reduce((sum, v) => sum + v, 0);
    };
    for (const l of [0, 1]) expect(mean(skewed, l) / mean(even, l)).toBeCloseTo(1, 1);
  });

  it('stops at once when cancelled and reports a worker of another build', async () => {
    const pool = createTracePool({ workerCount: 1, spawn: localPort });
    let passes = 0;
    await new Promise<void>((resolve) => {
      const handle = pool.start(job({ samplesPerPixel: 64 }), {
        onProgress: () => {
          passes++;
          handle.cancel();
          setTimeout(resolve, 30);
        },
      });
    });
    expect(passes).toBe(1);
    const serve = createTileServer((message) => {
      expect(message.type).toBe('error');
      if (message.type === 'error') expect(message.message).toMatch(/layout 0000.*reload/);
    });
    serve({ type: 'job', jobId: 1, layoutHash: '0000', job: job() });
    expect.assertions(3);
  });
});
