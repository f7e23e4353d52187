import { describe, expect, it } from 'vitest';
import { ALL_CHECKS } from '../../../src/analysis/allChecks.ts';
import { DEFAULT_LIMITS } from '../../../src/analysis/limits.ts';
import { limitsSchema } from '../../../src/document/setup.ts';
import { CHECK_WORDS } from '../../../src/views/checks/checkWords.ts';
import {
  LIMIT_FIELDS,
  limitFromText,
  limitText,
  numberInForce,
  stepLimit,
} from '../../../src/views/checks/limitFields.ts';

const fields = Object.values(LIMIT_FIELDS).flat();
const unitOf = (key: string) => {
  const field = fields.find((entry) => entry.key === key);
  if (field?.type !== 'number') throw new Error(`${key} is no number`);
  return field.unit;
};

describe('limits of the checks', () => {
  it('can all be set, each in one place; edges of single makers are set at the edge', () => {
    const keys = fields.map(({ key }) => key);
    const wanted = Object.keys(limitsSchema.shape).filter((key) => key !== 'edges');
    expect(keys.toSorted()).toEqual(wanted.toSorted());
  });

  it('stand under every check, each with a title and a question', () => {
    expect(Object.keys(LIMIT_FIELDS).toSorted()).toEqual([...ALL_CHECKS].toSorted());
    for (const check of ALL_CHECKS) expect(CHECK_WORDS[check].question).toMatch(/\?$/);
  });

  it('offer every word that the document takes, and no other', () => {
    for (const field of fields) {
      if (field.type !== 'word') continue;
      const schema = limitsSchema.shape[field.key];
      for (const value of Object.keys(field.words)) expect(schema.safeParse(value).success).toBe(true);
      expect(schema.unwrap().options.toSorted()).toEqual(Object.keys(field.words).toSorted());
    }
  });

  it('are written in the units of the set: 0.05 m as 5.0 cm, a share of 0.5 as 50 %, -1 stop with a true minus', () => {
    expect(limitText(0.05, unitOf('familyClearanceM'))).toBe('5.0 cm');
    expect(limitText(0.5, unitOf('flareStopShare'))).toBe('50 %');
    expect(limitText(0.055, unitOf('flareStopShare'))).toBe('5.5 %');
    expect(limitText(-1, unitOf('practicalCareStops'))).toBe('\u22121.0 stops');
    expect(limitText(undefined, unitOf('keyToFillMinStops'))).toBe('not judged');
  });

  it('are read back from what they write, to the last shown digit', () => {
    for (const field of fields) {
      if (field.type !== 'number') continue;
      const value = numberInForce({}, field.key);
      if (value === undefined) continue;
      const read = limitFromText(limitText(value, field.unit), field.unit);
      expect(Math.abs(read - value) * field.unit.perRecordUnit).toBeLessThanOrEqual(
        0.5 * 10 ** -field.unit.decimals + 1e-9,
      );
    }
  });

  it('step on their marks: 1/3 stop goes to 0.4, 5 % to 6 %, and from no limit to the first', () => {
    expect(stepLimit(1 / 3, unitOf('shadowSeenStops'), 1, false)).toBeCloseTo(0.4, 9);
    expect(stepLimit(0.05, unitOf('flareCareShare'), 1, false)).toBeCloseTo(0.06, 9);
    expect(stepLimit(undefined, unitOf('keyToFillMinStops'), 1, true)).toBeCloseTo(0.5, 9);
  });

  it('take the usual figure where the frame states none', () => {
    expect(numberInForce({}, 'reflectionCareStops')).toBe(DEFAULT_LIMITS.reflectionCareStops);
    expect(numberInForce({ reflectionCareStops: 2 }, 'reflectionCareStops')).toBe(2);
  });
});
