import { showNumber } from './findingsTable.ts';

/** How a figure's name says its unit, and how that is written. */
const UNITS: readonly (readonly [string, (value: number) => string])[] = [
  ['Lux', (v) => `${showNumber(v)} lx`],
  ['Nits', (v) => `${showNumber(v)} cd/m2`],
  ['Stops', (v) => `${showNumber(v)} stops`],
  ['Share', (v) => `${showNumber(100 * v)} %`],
  ['FNumber', (v) => `f/${showNumber(v)}`],
  ['Ev100', (v) => `EV100 ${showNumber(v)}`],
  ['Deg', (v) => `${showNumber(v)} degrees`],
  ['Mired', (v) => `${showNumber(v)} mired`],
  ['DeltaE2000', (v) => `dE2000 ${showNumber(v)}`],
  ['PxPerMm', (v) => `${showNumber(v)} px per mm`],
  ['WPerM2K', (v) => `${showNumber(v)} W/m2 K`],
  ['Rpm', (v) => `${showNumber(v)} rpm`],
  ['Px', (v) => `${showNumber(v)} px`],
  ['Min', (v) => `${showNumber(v)} min`],
  ['Kg', (v) => `${showNumber(v)} kg`],
  ['Nm', (v) => `${showNumber(v)} N m`],
  ['Mm', (v) => `${showNumber(v)} mm`],
  ['M', (v) => `${showNumber(v)} m`],
  ['K', (v) => `${showNumber(v)} K`],
  ['S', (v) => `${showNumber(v)} s`],
  ['W', (v) => `${showNumber(v)} W`],
  ['A', (v) => `${showNumber(v)} A`],
  ['V', (v) => `${showNumber(v)} V`],
  ['G', (v) => `${showNumber(v)} g`],
  ['C', (v) => `${showNumber(v)} degrees C`],
  ['Uv', (v) => `${showNumber(100 * v)} %`],
];

/** A figure's name without the unit at its end, and how to write the unit; null when the name carries none. */
function splitUnit(name: string): { bare: string; show: (value: number) => string } | null {
  const capital = name.charAt(0).toUpperCase() + name.slice(1);
  for (const [suffix, show] of UNITS) {
    if (capital === suffix && suffix.length > 1) return { bare: '', show };
    if (name.endsWith(suffix) && /[a-z0-9]$/.test(name.slice(0, -suffix.length))) {
      return { bare: name.slice(0, -suffix.length), show };
    }
  }
  return null;
}

/**
 * Figures as lines for a terminal: a heading per check, then what is measured and its value with the unit that its name
 * carries. Records go by their names.
 */
export function figureLines(
  figures: Readonly<Record<string, unknown>>,
  nameOf: (recordId: string) => string,
): string[] {
  return Object.entries(figures).flatMap(([check, value]) => {
    const found = flatten(value, [], nameOf);
    const rows = found.length > 0 ? found : [{ label: 'nothing to measure', text: '' }];
    const width = Math.max(0, ...rows.map(({ label }) => label.length));
    return ['', check, ...rows.map(({ label, text }) => `  ${label.padEnd(width)}  ${text}`.trimEnd())];
  });
}

interface Row {
  readonly label: string;
  readonly text: string;
}

function flatten(value: unknown, path: readonly string[], nameOf: (id: string) => string): Row[] {
  if (value === null || value === undefined) return [leaf('none', path)];
  if (typeof value !== 'object') return [leaf(value, path)];
  if (Array.isArray(value) && value.length > 0 && value.every((v) => typeof v === 'number'))
    return [{ label: leaf('', path).label, text: value.map((v) => leaf(v, path).text).join(', ') }];
  const entries: [string, unknown][] = Array.isArray(value)
    ? value.map((item, i) => [labelOf(item) ?? String(i + 1), item])
    : Object.entries(value).filter(([key]) => path.length === 0 || !LABEL_KEYS.has(key));
  return entries.flatMap(([key, inner]) => flatten(inner, [...path, nameOf(key)], nameOf));
}

/** Fields that say what an entry of a list is; they become its label. */
const LABEL_KEYS = new Set(['id', 'fixtureId', 'name']);

function labelOf(item: unknown): string | undefined {
  if (item === null || typeof item !== 'object') return undefined;
  const label = 'name' in item ? item.name : 'fixtureId' in item ? item.fixtureId : 'id' in item ? item.id : undefined;
  return typeof label === 'string' ? label : undefined;
}

function leaf(value: unknown, path: readonly string[]): Row {
  const show = (unit: ((value: number) => string) | null): string =>
    typeof value === 'number' ? (unit ?? showNumber)(value) : String(value);
  // The unit may stand in the name of a whole group: `frontElementLux` of each fixture.
  for (let at = path.length - 1; at >= 0; at -= 1) {
    const unit = splitUnit(path[at]);
    // What is no number carries a unit only where it stands for one.
    if (!unit || (typeof value !== 'number' && value !== 'none' && value !== '')) continue;
    const labels = path.with(at, unit.bare).filter((name) => name !== '');
    // A figure that is called by its unit alone keeps its name.
    return { label: (labels.length > 0 ? labels : path).map(inWords).join(', '), text: show(unit.show) };
  }
  return { label: path.map(inWords).join(', '), text: show(null) };
}

/** 'incidentDome' as 'incident dome'; a name with spaces or capitals of its own stays. */
const inWords = (name: string): string =>
  /^[a-z][A-Za-z0-9]*$/.test(name) ? name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`) : name;
