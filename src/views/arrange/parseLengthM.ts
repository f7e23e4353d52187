import { mFromFeet, mFromInches } from '../../core/units.ts';

const UNITS: Readonly<Record<string, (value: number) => number>> = {
  mm: (value) => value / 1000,
  cm: (value) => value / 100,
  m: (value) => value,
  in: mFromInches,
  ft: mFromFeet,
};

/** A length as one types it, '1.2 m', '120 cm', '4 ft'; a bare number is in centimetres. Null for what is none. */
export function parseLengthM(text: string): number | null {
  const [, figure, unit] = /^\s*(-?\d+(?:[.,]\d+)?)\s*(mm|cm|m|in|ft)?\s*$/i.exec(text) ?? [];
  if (figure === undefined) return null;
  const convert = UNITS[unit?.toLowerCase() ?? 'cm'];
  return convert ? convert(Number(figure.replace(',', '.'))) : null;
}
