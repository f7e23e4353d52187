import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FEET_SCALES } from '../../../src/deliverables/plan/drawingScale.ts';
import {
  lengthWithUnit,
  lengthWords,
  sideWords,
  signedLengthWords,
} from '../../../src/deliverables/plan/lengthWords.ts';
import { tableInUnits } from '../../../src/deliverables/sheets/tableInUnits.ts';

/** Feet, inches and fraction are held together by spaces that do not break. */
const spaced = (words: string): string => words.replaceAll('\u00a0', ' ');

describe('lengths in feet and inches', () => {
  // 1 ft = 0.3048 m and 1 in = 0.0254 m exactly (international yard and pound agreement, 1959).
  it.each([
    [0.3048, `1' 0"`],
    [0.0254, '1"'],
    [0.6096, `2' 0"`],
    // 39.646 in = 3 ft 3.646 in; 0.646 x 16 = 10.3.
    [1.007, `3' 3 5/8"`],
    [0.0127, '1/2"'],
    [0.0009, '1/16"'],
    [0.0004, '0"'],
    [-0.4, `\u22121' 3 3/4"`],
    // A sixteenth short of a foot rounds to the foot, not to 12 inches.
    [0.3047, `1' 0"`],
  ])('says %f m as %s', (lengthM, words) => {
    expect(spaced(lengthWords(lengthM, 'feet'))).toBe(words);
  });

  it('is never off by more than a thirty-second of an inch', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), (lengthM) => {
        const words = spaced(lengthWords(lengthM, 'feet'));
        const read = /^(?:(\d+)' )?(?:(\d+))?(?: ?(\d+)\/(\d+))?"$/.exec(words);
        if (!read) throw new Error(words);
        const inches =
          12 * Number(read[1] ?? 0) + Number(read[2] ?? 0) + (read[3] ? Number(read[3]) / Number(read[4]) : 0);
        expect(Math.abs(inches * 0.0254 - lengthM)).toBeLessThanOrEqual(0.0254 / 32 + 1e-9);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('carries sides and signs as the millimetres do', () => {
    expect(spaced(sideWords(-0.3048, 'feet'))).toBe(`1' 0" left`);
    expect(sideWords(0, 'feet')).toBe('0"');
    expect(spaced(signedLengthWords(-0.3048, 'feet'))).toBe(`\u22121' 0"`);
    expect(lengthWithUnit(0.6)).toBe('600 mm');
  });

  it('turns lengths of the set in a table and leaves the millimetres of a lens', () => {
    const table = {
      id: 't',
      title: 't',
      columns: [
        { title: 'Lens', unit: 'mm', share: 1 },
        { title: 'Reach', unit: 'mm', isLength: true, share: 1 },
      ],
      rows: [
        [85, 304.8],
        [85, null],
      ],
      notes: [],
    } as const;
    const feet = tableInUnits(table, 'feet');
    expect(feet.rows).toEqual([
      [85, `1'\u00a00"`],
      [85, null],
    ]);
    expect(feet.columns[1]).toEqual({ title: 'Reach', unit: 'ft\u00a0in', share: 1.4 });
    expect(tableInUnits(table, 'mm')).toBe(table);
    const unknown = { ...table, rows: [[85, null]] };
    expect(tableInUnits(unknown, 'feet').columns.map(({ title }) => title)).toEqual(['Lens']);
  });

  it('names its scales after the inches that a foot takes on paper', () => {
    for (const [denominator, words] of Object.entries(FEET_SCALES)) {
      const read = /^(?:(\d+) )?(\d+)(?:\/(\d+))?" = 1'$/.exec(words);
      if (!read) throw new Error(words);
      const inches = Number(read[1] ?? 0) + Number(read[2]) / Number(read[3] ?? 1);
      expect(12 / inches, words).toBeCloseTo(Number(denominator), 9);
    }
  });
});
