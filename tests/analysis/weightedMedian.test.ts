import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { weightedMedian } from '../../src/analysis/shadows/weightedMedian.ts';

describe('the place with half of the weight on either side', () => {
  it('is the middle of two alike, and leans to the heavier: of 1 at 0 and 3 at 1 it is 3/4', () => {
    // Middles of the weights lie at 1/2 and 5/2 of 4; half, 2, is three quarters of the way.
    expect(
      weightedMedian([
        { at: 0, weight: 1 },
        { at: 1, weight: 1 },
      ]),
    ).toBe(0.5);
    expect(
      weightedMedian([
        { at: 0, weight: 1 },
        { at: 1, weight: 3 },
      ]),
    ).toBeCloseTo(0.75, 12);
  });

  it('of an even spread under a weight 1 + a u is at a / 8 for small a (integral to a half: u + a u^2 / 2 = a / 8)', () => {
    const parts = Array.from({ length: 200 }, (_, i) => ({
      at: (i + 0.5) / 200 - 0.5,
      weight: 1 + 0.1 * ((i + 0.5) / 200 - 0.5),
    }));
    expect(weightedMedian(parts)).toBeCloseTo(0.1 / 8, 4);
  });

  it('is null without weight and infinite where half of it is', () => {
    expect(weightedMedian([])).toBeNull();
    expect(weightedMedian([{ at: 1, weight: 0 }])).toBeNull();
    expect(
      weightedMedian([
        { at: 0, weight: 1 },
        { at: Number.POSITIVE_INFINITY, weight: 5 },
      ]),
    ).toBe(Number.POSITIVE_INFINITY);
  });

  it('moves with the places, never with the order or with all weights alike', () => {
    const part = fc.record({
      at: fc.double({ min: -5, max: 5, noNaN: true }),
      weight: fc.double({ min: 0.01, max: 9, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (parts, k) => {
          const value = weightedMedian(parts) ?? 99;
          expect(weightedMedian([...parts].reverse())).toBeCloseTo(value, 6);
          expect(weightedMedian(parts.map(({ at, weight }) => ({ at, weight: k * weight })))).toBeCloseTo(value, 6);
          expect(weightedMedian(parts.map(({ at, weight }) => ({ at: at + 3, weight })))).toBeCloseTo(value + 3, 6);
          expect(value).toBeGreaterThanOrEqual(Math.min(...parts.map(({ at }) => at)));
          expect(value).toBeLessThanOrEqual(Math.max(...parts.map(({ at }) => at)));
        },
      ),
      { seed: 81 },
    );
  });
});
