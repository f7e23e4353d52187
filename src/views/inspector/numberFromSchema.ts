import type { z } from 'zod';
import { centimetres, millimetres, type NumberField, number, type Patch } from './fields.ts';
import { isLengthKey, unitOfKey } from './fieldWords.ts';
import { percent } from './percent.ts';

/** Thin parts of large things. */
const THIN = /^(thickness|edge|bar|border|cover|wall|floor$)/;
/** A length that may not pass this is that of a small thing. */
const SMALL_M = 0.6;
const CHROMATICITY: readonly string[] = ['x', 'y'];

interface NumberInput {
  readonly key: string;
  readonly id: string;
  readonly label: string;
  readonly type: z.ZodNumber;
  readonly value: number;
  readonly length: 'mm' | 'cm';
  put(next: number): Patch;
}

/** A number of a record in the unit that people use for it, within what its schema allows. */
export function numberFromSchema({ key, id, label, type, value, length, put }: NumberInput): NumberField {
  const { min, max } = boundsOf(type, isLengthKey(key) ? 0.001 : 1);
  if (isLengthKey(key)) {
    const bounds = { minM: min ?? -50, maxM: max ?? 50 };
    if (length === 'cm' && bounds.maxM > SMALL_M && !THIN.test(key)) return centimetres(id, label, value, put, bounds);
    const field = millimetres(id, label, value, put, bounds);
    if (bounds.maxM <= 0.002) return { ...field, step: 0.01, decimals: 3 };
    return bounds.maxM <= 0.02 ? { ...field, step: 0.1, decimals: 2 } : field;
  }
  const unit = unitOfKey(key);
  if (type.isInt) {
    return number(id, label, value, {
      ...(unit ? { unit } : {}),
      ...(min === undefined ? {} : { min }),
      ...(max === undefined ? {} : { max }),
      step: 1,
      patch: (next) => put(Math.round(next)),
    });
  }
  if (
    unit === undefined &&
    min !== undefined &&
    max !== undefined &&
    min >= 0 &&
    max <= 1 &&
    !CHROMATICITY.includes(key)
  ) {
    return { ...percent(id, label, value, put), min: min * 100, max: max * 100 };
  }
  const fine = unit === undefined;
  return number(id, label, value, {
    ...(unit ? { unit } : {}),
    ...(min === undefined ? {} : { min }),
    ...(max === undefined ? {} : { max }),
    step: fine ? 0.01 : 1,
    decimals: fine ? 3 : unit === 'stops' || unit === '°' ? 1 : 0,
    slider: unit === '°' && min !== undefined && max !== undefined,
    patch: put,
  });
}

/** Bounds that the schema takes; one that it shuts out moves in by a step. */
function boundsOf(
  type: z.ZodNumber,
  step: number,
): { readonly min: number | undefined; readonly max: number | undefined } {
  const within = (bound: number | null, inward: number): number | undefined => {
    if (bound === null || !Number.isFinite(bound)) return undefined;
    return type.safeParse(bound).success ? bound : bound + inward;
  };
  return { min: within(type.minValue, step), max: within(type.maxValue, -step) };
}
