import { lengthWords } from '../../deliverables/plan/lengthWords.ts';
import type { Comfort } from './comfortStore.ts';

/** Metres in each unit that is said over in feet and inches. Millimetres are those of lenses and glass: they stay. */
const M_PER_UNIT = { m: 1, cm: 0.01 } as const;
const CM_PER_INCH = 2.54;
/** A figure and 'm' or 'cm' as a word of its own: not 'lm', 'mm', 'cd/m2' or '3 min'. */
const LENGTH = /(\d+(?:\.\d+)?) (m|cm)(?![\w/²\u00b2])/g;

/** '1.20 m', or feet and inches to a sixteenth. */
export function formatLength(valueM: number, lengths: Comfort['lengths']): string {
  if (lengths === 'feet') return lengthWords(valueM, 'feet');
  return `${(Math.round(valueM * 100) / 100 + 0).toFixed(2)} m`;
}

/** A sentence with its metres and centimetres said in feet and inches where the person wants that. */
export function inLengths(text: string, lengths: Comfort['lengths']): string {
  if (lengths === 'metric') return text;
  return text.replace(LENGTH, (_, figure: string, unit: keyof typeof M_PER_UNIT) =>
    lengthWords(Number(figure) * M_PER_UNIT[unit], 'feet'),
  );
}

export const inchesFromCm = (valueCm: number): number => valueCm / CM_PER_INCH;
export const cmFromInches = (inches: number): number => inches * CM_PER_INCH;
