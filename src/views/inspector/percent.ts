import type { NumberField, Patch } from './fields.ts';

/** A share 0..1 of a record, edited in percent. */
export const percent = (
  key: string,
  label: string,
  share: number,
  patch: (share: number) => Patch = (next) => ({ [key]: next }),
): NumberField => ({
  type: 'number',
  key,
  label,
  unit: '%',
  value: share * 100,
  min: 0,
  max: 100,
  step: 1,
  decimals: 1,
  slider: true,
  patch: (value) => patch(Number((value / 100).toFixed(5))),
});
