import { describe, expect, it } from 'vitest';
import {
  addTile,
  compileWorld,
  composeFilm,
  createFilm,
  createTracerFor,
  denoiseFilm,
  type Film,
  traceTile,
} from '../../src/transport/index.ts';
import { TABLETOP_N, tabletopSet, tabletopView } from '../reference/tabletop/scene.ts';

const [W, H] = [96, 72];
const BOTH = Float32Array.of(1, 1, 1, 1, 1, 1);

function trace(samples: number, seed: number): Film {
  const world = compileWorld(tabletopSet(TABLETOP_N), { rawColour: true });
  const job = {
    world,
    view: tabletopView(),
    widthPx: W,
    heightPx: H,
    seed,
    samplesPerPixel: samples,
    maxDepth: 16,
    photonsPerPass: 3000,
    layerGains: BOTH,
  };
  const film = createFilm(W, H, world.layerIds);
  addTile(film, traceTile(createTracerFor(job), 2, { x: 0, y: 0, widthPx: W, heightPx: H, firstSample: 0, samples }));
  return film;
}

/** Mean over pixels of the squared relative difference, the largest 1 % left out. */
function difference(a: Float32Array, b: Float32Array): number {
  const scale = b.reduce((s, v) => s + v, 0) / b.length;
  const errors = Float64Array.from(
    { length: a.length / 3 },
    (_, i) => (a[i * 3] - b[i * 3]) ** 2 / (b[i * 3] ** 2 + 0.01 * scale ** 2),
  );
  errors.sort();
  const keep = Math.floor(errors.length * 0.99);
  return errors.subarray(0, keep).reduce((s, v) => s + v, 0) / keep;
}

describe('denoising', () => {
  const noisy = trace(8, 1);
  const smooth = denoiseFilm(noisy, BOTH);

  it('brings an 8-sample picture at least three times nearer to a long one', () => {
    const long = composeFilm(trace(256, 2), BOTH);
    const before = difference(composeFilm(noisy, BOTH), long);
    const after = difference(composeFilm(smooth, BOTH), long);
    expect(after * 3).toBeLessThan(before);
  });

  it('keeps layers adding up: each smoothed alone by the same weights', () => {
    const both = composeFilm(smooth, BOTH);
    const first = composeFilm(smooth, Float32Array.of(1, 1, 1, 0, 0, 0));
    const second = composeFilm(smooth, Float32Array.of(0, 0, 0, 1, 1, 1));
    for (let i = 0; i < both.length; i++)
      expect(Math.abs(both[i] - first[i] - second[i])).toBeLessThan(1e-5 * (1 + both[i]));
  });

  it('does not touch the film that it is given, and keeps light within a few per cent', () => {
    const before = composeFilm(noisy, BOTH);
    denoiseFilm(noisy, BOTH);
    expect(composeFilm(noisy, BOTH)).toEqual(before);
    const sum = (v: Float32Array) => v.reduce((s, x) => s + x, 0);
    expect(Math.abs(sum(composeFilm(smooth, BOTH)) / sum(before) - 1)).toBeLessThan(0.08);
  });

  it('keeps a hard edge between two even fields', () => {
    const film = createFilm(32, 32, ['a', 'b']);
    film.samples.fill(16);
    for (let i = 0; i < 1024; i++) {
      const bright = i % 32 >= 16;
      const value = bright ? 1 : 0.1;
      for (let c = 0; c < 3; c++) film.layers[0][i * 3 + c] = value * 16;
      film.luminanceSum[i] = value * 16;
      film.luminanceSquareSum[i] = (value * value + 0.0001) * 16;
      film.features[i * 7] = bright ? 16 * 0.8 : 16 * 0.1;
      film.features[i * 7 + 5] = 16;
      film.features[i * 7 + 6] = 16;
    }
    const out = composeFilm(denoiseFilm(film, BOTH), BOTH);
    expect(out[(16 * 32 + 14) * 3]).toBeCloseTo(0.1, 2);
    expect(out[(16 * 32 + 17) * 3]).toBeCloseTo(1, 2);
  });
});
