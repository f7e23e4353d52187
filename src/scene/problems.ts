import type { Diagnostic } from '../core/diagnostic.ts';

/** A length for people, to a hundredth of a millimetre. */
export const inMm = (lengthM: number): string => `${Number((lengthM * 1000).toFixed(2))} mm`;

/** A piece that cannot be made: it is left out of the set, and this stands beside the field. */
export const cannotMake = (
  recordId: string,
  code: string,
  field: string,
  value: unknown,
  message: string,
): Diagnostic => ({ severity: 'error', code, recordId, field, value, message });

/** A piece that is made, but not quite as asked. */
export const madeWithin = (
  recordId: string,
  code: string,
  field: string,
  value: unknown,
  message: string,
): Diagnostic => ({ severity: 'warning', code, recordId, field, value, message });
