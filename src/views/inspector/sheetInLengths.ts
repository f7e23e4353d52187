import type { Vec3 } from '../../core/vec3.ts';
import { type Comfort, cmFromInches, inchesFromCm } from '../comfort/index.ts';
import type { Field, RecordSheet } from './fields.ts';

/** The same sheet with its centimetres in inches where the person wants that; small parts stay in millimetres. */
export function sheetInLengths(sheet: RecordSheet, lengths: Comfort['lengths']): RecordSheet {
  if (lengths === 'metric') return sheet;
  return {
    ...sheet,
    groups: sheet.groups.map((group) => ({ ...group, fields: group.fields.map(fieldInInches) })),
  };
}

const inches = (valueCm: number): number => Number(inchesFromCm(valueCm).toFixed(4)) + 0;

function fieldInInches(field: Field): Field {
  if (field.unit !== 'cm') return field;
  if (field.type === 'point') {
    const each = (p: Vec3, convert: (v: number) => number): Vec3 => [convert(p[0]), convert(p[1]), convert(p[2])];
    return {
      ...field,
      unit: 'in',
      step: 0.5,
      decimals: 2,
      value: each(field.value, inches),
      patch: (value: Vec3) => field.patch(each(value, cmFromInches)),
    };
  }
  if (field.type !== 'number') return field;
  return {
    ...field,
    unit: 'in',
    step: 0.5,
    decimals: 2,
    value: inches(field.value),
    ...(field.min === undefined ? {} : { min: inches(field.min) }),
    ...(field.max === undefined ? {} : { max: inches(field.max) }),
    patch: (value: number) => field.patch(cmFromInches(value)),
  };
}
