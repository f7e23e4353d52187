import { describe, expect, it } from 'vitest';
import { formatLength, inLengths } from '../../../src/views/comfort/lengthText.ts';
import { centimetres, millimetres, point, type RecordSheet } from '../../../src/views/inspector/fields.ts';
import { sheetInLengths } from '../../../src/views/inspector/sheetInLengths.ts';

// The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
describe('lengths in feet and inches', () => {
  it('says 1.20 m as 3 feet 11 and a quarter inches', () => {
    expect(formatLength(1.2, 'metric')).toBe('1.20 m');
    expect(formatLength(1.2, 'feet')).toBe('3\'\u00a011\u00a01/4"');
  });

  it('says over metres and centimetres of a sentence, and nothing else', () => {
    const text = 'Raise Back panel by 0.12 m, 45.7 cm away: 50 mm lens, 12 cd/m2, 3 min, 1200 lm, 2 m2.';
    expect(inLengths(text, 'metric')).toBe(text);
    expect(inLengths(text, 'feet')).toBe(
      'Raise Back panel by 4\u00a03/4", 1\'\u00a06" away: 50 mm lens, 12 cd/m2, 3 min, 1200 lm, 2 m2.',
    );
  });

  it('edits centimetres in inches and gives the record its metres; millimetres stay', () => {
    const sheet: RecordSheet = {
      recordId: 'a',
      collection: 'fixtures',
      title: 'Panel',
      kindWords: 'panel',
      groups: [
        {
          title: 'Place',
          fields: [
            centimetres('width', 'Width', 0.508, (widthM) => ({ widthM })),
            point('at', 'At', [0.254, 1.27, -0.508], (positionM) => ({ positionM })),
            millimetres('wall', 'Wall', 0.002, (wallM) => ({ wallM })),
          ],
        },
      ],
      change: () => {
        throw new Error('not called');
      },
    };
    const [width, at, wall] = sheetInLengths(sheet, 'feet').groups[0].fields;
    expect([width.unit, width.value, at.value, wall.unit, wall.value]).toEqual(['in', 20, [10, 50, -20], 'mm', 2]);
    if (width.type !== 'number' || at.type !== 'point') throw new Error('types change');
    expect(width.patch(10)).toEqual({ widthM: 0.254 });
    expect(at.patch([1, 2, 3])).toEqual({ positionM: [0.0254, 0.0508, 0.0762] });
  });
});
