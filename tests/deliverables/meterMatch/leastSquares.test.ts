import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/rng.ts';
import { invertSymmetric, solveNonNegative, times } from '../../../src/deliverables/meterMatch/leastSquares.ts';
import { jointFactor, normalCdf, normalQuantile } from '../../../src/deliverables/meterMatch/normal.ts';

describe('invertSymmetric', () => {
  it('inverts [[4, 2], [2, 3]] to [[3, -2], [-2, 4]] / 8', () => {
    expect(
      invertSymmetric([
        [4, 2],
        [2, 3],
      ]),
    ).toEqual([
      [expect.closeTo(0.375), expect.closeTo(-0.25)],
      [expect.closeTo(-0.25), expect.closeTo(0.5)],
    ]);
  });

  it('refuses a matrix of rank one', () => {
    expect(
      invertSymmetric([
        [1, 2],
        [2, 4],
      ]),
    ).toBeNull();
  });
});

describe('solveNonNegative', () => {
  it('solves an exact system', () => {
    expect(
      solveNonNegative(
        [
          [1, 2],
          [3, 1],
          [0, 1],
        ],
        [8, 9, 3],
        [1, 1, 1],
      ),
    ).toEqual([expect.closeTo(2), expect.closeTo(3)]);
  });

  it('holds at 0 what would be negative: x1 - x2 pattern of Lawson and Hanson', () => {
    // Free solution (2, -1); with x2 = 0 the best x1 = (1*1 + 1*2)/(1 + 1) = 1.5.
    expect(
      solveNonNegative(
        [
          [1, 1],
          [1, 0],
        ],
        [1, 2],
        [1, 1],
      ),
    ).toEqual([expect.closeTo(1.5), 0]);
  });

  it('meets the conditions of Karush, Kuhn and Tucker on 200 random problems', () => {
    const random = createRandom(42);
    for (let run = 0; run < 200; run++) {
      const a = Array.from({ length: 9 }, () => Array.from({ length: 5 }, () => random() * 2 - 0.6));
      const b = Array.from({ length: 9 }, () => random() * 2 - 0.5);
      const w = Array.from({ length: 9 }, () => 0.1 + random());
      const x = solveNonNegative(a, b, w);
      const residual = times(a, x).map((fitted, j) => b[j] - fitted);
      for (let i = 0; i < 5; i++) {
        const gradient = a.reduce((sum, row, j) => sum + w[j] * row[i] * residual[j], 0);
        expect(x[i]).toBeGreaterThanOrEqual(0);
        if (x[i] > 1e-9) expect(Math.abs(gradient)).toBeLessThan(1e-8);
        else expect(gradient).toBeLessThan(1e-8);
      }
    }
  });
});

describe('normal distribution', () => {
  // Tables of the normal distribution: 1.96 leaves 2.5 % above, 2.5758 leaves 0.5 %.
  it('has 97.5 % under 1.95996 and 99.5 % under 2.57583', () => {
    expect(normalCdf(1.959964)).toBeCloseTo(0.975, 6);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 5);
    expect(normalQuantile(0.995)).toBeCloseTo(2.575829, 4);
    expect(normalQuantile(0.025)).toBeCloseTo(-1.959964, 5);
  });

  it('needs 2.631 standard deviations for six at once with 95 %', () => {
    // Sidak: each at 0.95^(1/6) = 0.991488; two-sided z = 2.6310.
    expect(jointFactor(1, 0.95)).toBeCloseTo(1.959964, 4);
    expect(jointFactor(6, 0.95)).toBeCloseTo(2.631, 3);
  });
});
