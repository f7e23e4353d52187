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
  ['Mm', (v) => `${showNumber(v)} mm`],
  ['M', (v) => `${showNumber(v)} m`],
  ['K', (v) => `${showNumber(v)} K`],
  ['S', (v) => `${showNumber(v)} s`],
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
    const rows = flatten(value, [], nameOf);
    const width = Math.max(0, ...rows.map(({ label }) => label.length));
    return ['', check, ...rows.map(({ label, text }) => `  ${label.padEnd(width)}  ${text}`)];
  });
}

interface Row {
  readonly label: string;
  readonly text: string;
}

function flatten(value: unknown, path: readonly string[], nameOf: (id: string) => string): Row[] {
  if (value === null || value === undefined) return [{ label: path.map(inWords).join(', '), text: 'none' }];
  if (typeof value !== 'object') return [leaf(value, path)];
  if (Array.isArray(value) && value.length > 0 && value.every((v) => typeof v === 'number')) {
    return [{ label: path.map(inWords).join(', '), text: value.map(showNumber).join(', ') }];
  }
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
  if (typeof value !== 'number') return { label: path.map(inWords).join(', '), text: String(value) };
  // The unit may stand in the name of a whole group: `frontElementLux` of each fixture.
  for (let at = path.length - 1; at >= 0; at -= 1) {
    const unit = splitUnit(path[at]);
    if (!unit) continue;
    const labels = path.with(at, unit.bare).filter((name) => name !== '');
    return { label: labels.map(inWords).join(', '), text: unit.show(value) };
  }
  return { label: path.map(inWords).join(', '), text: showNumber(value) };
}

/** 'incidentDome' as 'incident dome'; a name with spaces or capitals of its own stays. */
const inWords = (name: string): string =>
  /^[a-z][A-Za-z0-9]*$/.test(name) ? name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`) : name;
