import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recordMarks } from '../../../src/deliverables/plan/recordMarks.ts';
import { spreadApart } from '../../../src/deliverables/plan/spread.ts';

describe('spreadApart', () => {
  it('leaves places alone that are 3 apart or more', () => {
    expect(spreadApart([10, 4, 20], 3, 0, 30)).toEqual([10, 4, 20]);
  });

  it('moves two equal places 1.5 either way for a gap of 3', () => {
    expect(spreadApart([10, 10], 3, 0, 30)).toEqual([8.5, 11.5]);
  });

  it('keeps order, gap and bounds for any places that fit', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 25 }), (places) => {
        const spread = spreadApart(places, 3, 0, 100);
        const sorted = places.map((p, i) => [p, spread[i]] as const).sort((a, b) => a[1] - b[1]);
        for (let i = 0; i < sorted.length; i++) {
          expect(sorted[i][1]).toBeGreaterThanOrEqual(-1e-9);
          expect(sorted[i][1]).toBeLessThanOrEqual(100 + 1e-9);
          if (i === 0) continue;
          expect(sorted[i][1] - sorted[i - 1][1]).toBeGreaterThanOrEqual(3 - 1e-9);
          expect(sorted[i][0]).toBeGreaterThanOrEqual(sorted[i - 1][0]);
        }
      }),
      { seed: 20260418 },
    );
  });
});

describe('recordMarks', () => {
  it('numbers lights and letters grip without I and O', () => {
    const fixtures = Array.from({ length: 12 }, (_, i) => ({ id: `f${i}` }));
    const grip = Array.from({ length: 26 }, (_, i) => ({ id: `g${i}` }));
    const marks = recordMarks({ fixtures, grip });
    expect(marks.get('f11')).toBe('12');
    expect([7, 8, 12, 13, 23, 24, 25].map((i) => marks.get(`g${i}`))).toEqual(['H', 'J', 'N', 'P', 'Z', 'A2', 'B2']);
  });
});
