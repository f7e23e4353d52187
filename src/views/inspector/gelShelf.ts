import { isEqualData } from '../../document/plainData.ts';
import type { Gel } from '../../fixtures/modifierRecords.ts';

const STRENGTHS = ['full', 'half', 'quarter', 'eighth'] as const;
const GEL_WORDS = { ctb: 'CTB', cto: 'CTO', plusGreen: 'plus green', minusGreen: 'minus green' } as const;
const DENSITIES = [0.15, 0.3, 0.6, 0.9, 1.2] as const;

/** The gels on the shelf by the words that are shown. */
export const SHELF_GELS: ReadonlyMap<string, Gel> = new Map<string, Gel>([
  ...(['cto', 'ctb', 'plusGreen', 'minusGreen'] as const).flatMap((kind) =>
    STRENGTHS.map((strength): [string, Gel] => [`${strength} ${GEL_WORDS[kind]}`, { kind, strength }]),
  ),
  ...DENSITIES.map((density): [string, Gel] => [`ND ${density}`, { kind: 'nd', density }]),
]);
/** Any other colour, as it is measured or as it is seen. */
export const OWN_GELS: ReadonlyMap<string, Gel> = new Map<string, Gel>([
  ['own colour, by x and y', { kind: 'custom', transmission: { type: 'xy', x: 0.3127, y: 0.329, transmittance: 0.5 } }],
  ['own colour, by eye', { kind: 'custom', transmission: { type: 'rgb', transmissionRgb: [0.9, 0.5, 0.3] } }],
]);
/** What a gel is called on the shelf; null for one that is not on it. */
export function nameOfGel(gel: Gel): string | null {
  const known = [...SHELF_GELS].find(([, shelved]) => isEqualData(shelved, gel));
  if (known) return known[0];
  if (gel.kind !== 'custom') return null;
  const { type } = gel.transmission;
  return [...OWN_GELS].find(([, own]) => own.kind === 'custom' && own.transmission.type === type)?.[0] ?? null;
}
