import { describe, expect, it } from 'vitest';
import {
  fNumberFromText,
  fNumberText,
  ISO_MARKS,
  SHUTTER_TIMES_S,
  secondsFromText,
  stepFNumber,
  stepOnScale,
} from '../../../src/views/frame/exposureScales.ts';

describe('the stop', () => {
  it('steps f/8 up to f/9 and down to f/7.1, by exactly a third of a stop', () => {
    // Exact thirds: N = 2^(k/6), so a step is a factor of 2^(1/6) in N.
    expect(fNumberText(stepFNumber(8, 1, false))).toBe('f/9');
    expect(fNumberText(stepFNumber(8, -1, false))).toBe('f/7.1');
    expect(2 * Math.log2(stepFNumber(8, 1, false) / 8)).toBeCloseTo(1 / 3, 3);
  });

  it('steps a whole stop with the large step: f/8 to f/11 and to f/5.6', () => {
    expect(fNumberText(stepFNumber(8, 1, true))).toBe('f/11');
    expect(fNumberText(stepFNumber(8, -1, true))).toBe('f/5.6');
  });

  it('stays at the ends of the scale, f/1 and f/64', () => {
    expect(stepFNumber(1, -1, true)).toBe(1);
    expect(stepFNumber(64, 1, true)).toBe(64);
  });

  it('reads f/11, F11 and 11 as the exact stop 11.3137, and refuses words', () => {
    expect(['f/11', 'F11', '11'].map(fNumberFromText)).toEqual([11.3137, 11.3137, 11.3137]);
    expect(fNumberFromText('wide open')).toBeNaN();
  });

  it('names a stop that is off the marks by its own figure', () => {
    expect(fNumberText(8.5)).toBe('f/8.5');
  });
});

describe('shutter and sensitivity', () => {
  it('reads 1/50, 0.5 and 2 s as seconds, and refuses a division by words', () => {
    expect([secondsFromText('1/50'), secondsFromText('0.5'), secondsFromText('2 s')]).toEqual([0.02, 0.5, 2]);
    expect(secondsFromText('1/x')).toBeNaN();
  });

  it('steps 1/50 to 1/40 and 1/60, and ISO 400 to 800 in one large step', () => {
    expect(stepOnScale(SHUTTER_TIMES_S, 0.02, 1, false)).toBeCloseTo(1 / 40, 12);
    expect(stepOnScale(SHUTTER_TIMES_S, 0.02, -1, false)).toBeCloseTo(1 / 60, 12);
    expect(stepOnScale(ISO_MARKS, 400, 1, true)).toBe(800);
  });

  it('takes the nearest mark as its start when a value lies between marks', () => {
    expect(stepOnScale(ISO_MARKS, 420, 1, false)).toBe(500);
  });

  it('holds marks in thirds: neighbours differ by a third of a stop, to what engraving rounds', () => {
    // Engraved marks are rounded by up to 0.15 stop (0.3 s stands for 0.315, 1/6 for 1/6.35; common practice).
    for (const scale of [SHUTTER_TIMES_S, ISO_MARKS]) {
      for (let i = 1; i < scale.length; i++) {
        expect(Math.abs(Math.log2(scale[i] / scale[i - 1]) - 1 / 3)).toBeLessThan(0.15);
      }
    }
  });
});
