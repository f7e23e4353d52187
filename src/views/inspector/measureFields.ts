import { centimetres, type Field, millimetres, number, type Patch } from './fields.ts';
import { percent } from './percent.ts';

/** What measures are called where the plain words of their name do not say it. */
const LABELS: Readonly<Record<string, string>> = {
  wallM: 'Wall',
  baseThicknessM: 'Base',
  baseDiameterM: 'Foot diameter',
  stemDiameterM: 'Stem',
  shoulderHeightM: 'Shoulder at',
  neckHeightM: 'Neck length',
  footRadiusM: 'Foot rounding',
  floorFilletM: 'Floor rounding',
  floorDepthM: 'Flat part',
  edgeRadiusM: 'Edge rounding',
  seed: 'Fall',
  fillFraction: 'Filled to',
  fillMl: 'Poured',
};

/** Shares of 1 whose name does not end in Share or Fraction. */
const SHARES: ReadonlySet<string> = new Set(['frost', 'coverage', 'transmittance', 'reflectance', 'edgeFalloff']);
const WHOLE_NUMBERS: ReadonlySet<string> = new Set(['count', 'seed', 'columns', 'rows', 'facets', 'segments']);

/** Measures of large things that are small themselves. */
const THIN = /^(thickness|edge|bar|border)/;

/** 'rimDiameterM' as 'Rim diameter'. */
export function labelOfKey(key: string): string {
  const known = LABELS[key];
  if (known) return known;
  const words = key
    .replace(/(M|Ml|Deg|Share|Fraction)$/, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

interface MeasureOptions {
  /** Small things are measured in millimetres, sets in centimetres. */
  readonly length: 'mm' | 'cm';
  /** Puts a changed part back where it belongs in the record. */
  patch(part: Patch): Patch;
  readonly skip?: readonly string[];
  /** Goes before each key, so that parts of one record do not clash. */
  readonly prefix?: string;
}

/**
 * A field for every number of a record or of a part of it, by what its name says: metres, degrees, shares, counts.
 * New measures of a record can so be edited from the day they exist; what they may be is settled by the document.
 */
export function measureFields(part: object, { length, patch, skip = [], prefix = '' }: MeasureOptions): Field[] {
  return Object.entries(part).flatMap(([key, value]): Field[] => {
    if (typeof value !== 'number' || skip.includes(key)) return [];
    const label = labelOfKey(key);
    const id = `${prefix}${key}`;
    const put = (next: number): Patch => patch({ [key]: next });
    if (key.endsWith('PerM')) return [];
    if (key.endsWith('M')) {
      const lengthField = length === 'mm' || THIN.test(key) ? millimetres : centimetres;
      return [lengthField(id, label, value, put, { minM: 0 })];
    }
    if (key.endsWith('Deg')) return [number(id, label, value, { unit: '°', step: 1, decimals: 1, patch: put })];
    if (key.endsWith('Ml')) return [number(id, label, value, { unit: 'ml', min: 1, step: 5, patch: put })];
    if (/(Share|Fraction)$/.test(key) || SHARES.has(key)) return [percent(id, label, value, put)];
    if (WHOLE_NUMBERS.has(key)) {
      return [number(id, label, value, { min: 0, step: 1, patch: (next) => put(Math.round(next)) })];
    }
    return [number(id, label, value, { step: 0.01, decimals: 3, patch: put })];
  });
}
