import { describe, expect, it } from 'vitest';
import { radicalInverse, sobol2 } from '../../src/core/lowDiscrepancy.ts';
import { createRandom, createWordStream } from '../../src/core/rng.ts';

describe('sobol2', () => {
  it('makes the 16 first points of the reference implementation (scipy.stats.qmc.Sobol, as a set)', () => {
    // biome-ignore format: a table
    const sixteenths = [
      [0, 0], [1, 15], [2, 10], [3, 5], [4, 12], [5, 3], [6, 6], [7, 9],
      [8, 8], [9, 7], [10, 2], [11, 13], [12, 4], [13, 11], [14, 14], [15, 1],
    ];
    const ours = Array.from({ length: 16 }, (_, i) => sobol2(i).map((x) => x * 16)).sort(
      (a, b) => (a[0] ?? 0) - (b[0] ?? 0),
    );
    expect(ours).toEqual(sixteenths);
  });

  it.each([
    ['plain', [0, 0]],
    ['scrambled', [0x9e3779b9, 0x7f4a7c15]],
  ] as const)('puts one %s point into each elementary box of 1/256 (definition of a (0, 2)-net in base 2)', (_n, s) => {
    for (const start of [0, 256, 4096]) {
      for (let k = 0; k <= 8; k++) {
        const columns = 2 ** k;
        const rows = 2 ** (8 - k);
        const boxes = new Set<number>();
        for (let i = start; i < start + 256; i++) {
          const [u, v] = sobol2(i, s);
          boxes.add(Math.floor(u * columns) * rows + Math.floor(v * rows));
        }
        expect(boxes.size).toBe(256);
      }
    }
  });

  it('keeps the centred points of a run inside the open square', () => {
    for (let i = 0; i < 64; i++) {
      const [u, v] = sobol2(i, [0, 0], 64);
      expect(Math.min(u, v)).toBeGreaterThanOrEqual(0.5 / 64);
      expect(Math.max(u, v)).toBeLessThanOrEqual(1 - 0.5 / 64);
    }
  });

  it('integrates exp(-u - v) to 1e-4 with 256 points, more than ten times closer than random points', () => {
    // Exact: (1 - 1/e)^2.
    const error = (points: readonly (readonly [number, number])[]): number =>
      Math.abs(points.reduce((sum, [u, v]) => sum + Math.exp(-u - v), 0) / points.length - (1 - Math.exp(-1)) ** 2);
    const even = error(Array.from({ length: 256 }, (_, i) => sobol2(i, [0, 0], 256)));
    let random = 0;
    for (let seed = 0; seed < 20; seed++) {
      const next = createRandom(seed);
      random += error(Array.from({ length: 256 }, () => [next(), next()] as const)) / 20;
    }
    expect(even).toBeLessThan(1e-4);
    expect(even).toBeLessThan(random / 10);
  });
});

describe('radicalInverse', () => {
  // Digits mirrored by hand: 6 = 110 in base 2 gives .011; 5 = 12 in base 3 gives .21.
  it.each([
    [2, 6, 0.375],
    [3, 5, 7 / 9],
    [5, 0, 0],
    [2, 1, 0.5],
  ])('in base %i of %i is %f', (base, index, value) => {
    expect(radicalInverse(base, index)).toBeCloseTo(value, 14);
  });
  it('agrees with the first Sobol dimension in base 2', () => {
    const next = createWordStream(1, 2, 3, 4);
    for (let n = 0; n < 50; n++) {
      const index = next() >>> 4;
      expect(radicalInverse(2, index)).toBe(sobol2(index)[0]);
    }
  });
});
