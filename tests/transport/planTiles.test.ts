import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  frameMean,
  planAdaptivePass,
  type TilePlan,
  tileNoise,
  tilesOfFrame,
} from '../../src/transport/cpu/planTiles.ts';
import { createFilm } from '../../src/transport/index.ts';

/** Tiles of 32 pixels in a row with so many samples each, and the spread of a single sample in each. */
const tilesOf = (samples: readonly number[], spread: readonly number[]): TilePlan[] =>
  samples.map((n, i) => ({
    area: { x: i * 32, y: 0, widthPx: 32, heightPx: 32 },
    samples: n,
    noise: spread[i] ** 2 / n,
  }));

/** One pass as the pool does it: plan, trace, look again. Returns the samples given, tile by tile. */
function runPass(tiles: TilePlan[], left: number, spreadOf: (i: number, samples: number) => number): number[] {
  const given = tiles.map(() => 0);
  for (const work of planAdaptivePass(tiles, left, 0)) given[work.x / 32] += work.samples;
  tiles.forEach((tile, i) => {
    tile.samples += given[i];
    tile.noise = spreadOf(i, tile.samples) ** 2 / tile.samples;
  });
  return given;
}

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);

describe('tiles of a frame', () => {
  it('cover each pixel once, with short ones at the right and bottom, and begin in the middle', () => {
    const tiles = tilesOfFrame(100, 70);
    const seen = new Uint8Array(100 * 70);
    for (const { area } of tiles)
      for (let y = area.y; y < area.y + area.heightPx; y++)
        for (let x = area.x; x < area.x + area.widthPx; x++) seen[y * 100 + x]++;
    expect(seen.every((n) => n === 1)).toBe(true);
    const { area } = tiles[0];
    expect(Math.hypot(area.x + area.widthPx / 2 - 50, area.y + area.heightPx / 2 - 35)).toBeLessThan(24);
  });
});

describe('noise of a tile', () => {
  it('is the mean of (standard error / (luminance + a tenth of the mean))^2', () => {
    const film = createFilm(2, 1, []);
    // Pixel 0: samples 1 and 3: mean 2, variance 2, of the mean 1. Pixel 1: 4 and 4, no spread.
    film.samples.fill(2);
    film.luminanceSum.set([4, 8]);
    film.luminanceSquareSum.set([10, 32]);
    expect(frameMean(film)).toBeCloseTo(3, 9);
    const noise = tileNoise(film, { x: 0, y: 0, widthPx: 2, heightPx: 1 }, 3);
    expect(noise).toBeCloseTo(1 / 2.3 ** 2 / 2, 6);
  });
});

describe('an adaptive pass', () => {
  it('gives noisier tiles more, in groups of 8 that follow on what a tile has', () => {
    const tiles = tilesOf([16, 16, 24, 16], [1, 4, 2, 0.5]);
    const work = planAdaptivePass(tiles, 100, 0);
    const given = [0, 0, 0, 0];
    for (const piece of work) {
      const i = piece.x / 32;
      expect(piece.samples).toBe(8);
      expect(piece.firstSample % 8).toBe(0);
      given[i] += 8;
    }
    expect(given[1]).toBeGreaterThan(given[0]);
    expect(given[1]).toBeGreaterThan(given[2]);
    // Pieces of one tile follow one another without a gap, first ones first.
    for (const i of [0, 1, 2, 3]) {
      const starts = work.filter((piece) => piece.x === i * 32).map((piece) => piece.firstSample);
      expect(starts).toEqual(starts.map((_, k) => tiles[i].samples + 8 * k));
    }
  });

  it('shares photons between tiles, never within one: as many sets as the busiest tile has groups', () => {
    const tiles = tilesOf([16, 40, 72, 16, 320], [9, 1, 2, 4, 1]);
    const work = planAdaptivePass(tiles, 100, 5);
    const sets = work.map(({ photonSet }) => photonSet);
    expect(sets).toEqual([...sets].sort((a, b) => a - b));
    const groups = tiles.map((_, i) => work.filter(({ x }) => x === i * 32));
    expect(new Set(sets).size).toBe(Math.max(...groups.map(({ length }) => length)));
    for (const group of groups) expect(group.map(({ photonSet }) => photonSet)).toEqual(group.map((_, g) => 5 + g));
  });

  it('keeps its budget of 8 a pixel, or what is left, to within one group', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 2, max: 40 }), fc.double({ min: 0, max: 10, noNaN: true })), {
          minLength: 1,
          maxLength: 60,
        }),
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        (list, left) => {
          const tiles = tilesOf(
            list.map(([groups]) => 8 * groups),
            list.map(([, spread]) => spread),
          );
          const spent = sum(planAdaptivePass(tiles, left, 0).map(({ samples }) => samples));
          const budget = Math.min(8, left) * tiles.length;
          expect(spent).toBeLessThan(budget + 8);
          // One tile takes 64 a pass at most, so a lone noisy tile may leave some over; never everything.
          expect(spent).toBeGreaterThanOrEqual(Math.min(budget, 8));
        },
      ),
      { seed: 1, numRuns: 300 },
    );
  });

  it('comes to samples in proportion to the spread of a sample, the best division of a given total', () => {
    // J. Neyman, "On the two different aspects of the representative method", JRSS 97(4), 1934: n_i ~ sigma_i.
    const spread = [1, 2, 4, 8, 1, 2, 4, 8];
    const tiles = tilesOf(new Array(8).fill(16), spread);
    for (let pass = 0; pass < 200; pass++) runPass(tiles, 1e6, (i) => spread[i]);
    const total = sum(tiles.map(({ samples }) => samples));
    tiles.forEach(({ samples }, i) => {
      expect(samples / total / (spread[i] / sum(spread))).toBeCloseTo(1, 1);
    });
    // What it is for: the sum of squared errors is below that of an even division of the same samples.
    const squared = (n: (i: number) => number): number => sum(spread.map((s, i) => (s * s) / n(i)));
    const even = squared(() => total / 8);
    const best = sum(spread) ** 2 / total;
    expect(squared((i) => tiles[i].samples)).toBeLessThan(1.02 * best);
    expect(best).toBeLessThan(0.7 * even);
  });

  it('is even where no tile shows noise', () => {
    const tiles = tilesOf([16, 16, 16], [0, 0, 0]);
    expect(runPass(tiles, 100, () => 0)).toEqual([8, 8, 8]);
  });

  it('starves no tile: one that has seen no light yet is looked at again, and gets its due once it has', () => {
    // Tile 3 sees nothing in its first 40 samples (a caustic that few paths find), then is the noisiest of all.
    const spreadOf = (i: number, samples: number): number => (i < 3 ? 1 : samples > 40 ? 6 : 0);
    const tiles = tilesOf([16, 16, 16, 16], [1, 1, 1, 0]);
    for (let pass = 0; pass < 300; pass++) runPass(tiles, 1e6, spreadOf);
    expect(tiles[3].samples).toBeGreaterThan(2 * tiles[0].samples);
  });

  it('spends little on a tile that stays black: under a tenth of its even share', () => {
    const tiles = tilesOf(new Array(10).fill(16), [...new Array(9).fill(1), 0]);
    for (let pass = 0; pass < 100; pass++) runPass(tiles, 1e6, (i) => (i < 9 ? 1 : 0));
    expect(tiles[9].samples).toBeLessThan(0.1 * tiles[0].samples + 16);
    expect(tiles[9].samples).toBeGreaterThan(16);
  });
});
