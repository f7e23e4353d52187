import { type Gel, gelSchema } from '../../fixtures/modifierRecords.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { withPatched } from './drinkFields.ts';
import { choice, type Field, type FieldGroup, number, type Patch } from './fields.ts';
import { nameOfGel, OWN_GELS, SHELF_GELS } from './gelShelf.ts';
import { objectSchemaOf } from './schemaFields.ts';
import { schemaGroups } from './schemaGroups.ts';

const NONE = 'none';
const MOST_GELS = 8;
const MOST_NETS = 6;
const ALL_GELS = new Map<string, Gel>([...SHELF_GELS, ...OWN_GELS]);
const GEL_NAMES = [NONE, ...ALL_GELS.keys()];
const GEL_OPTIONS = Object.fromEntries(GEL_NAMES.map((name) => [name, name]));

/** Gels and nets in front of a light: a line for each, an empty one to put in another. */
export function filterGroups({ gels = [], nets = [] }: Pick<Fixture, 'gels' | 'nets'>): FieldGroup[] {
  const putGels = (next: readonly unknown[]): Patch => ({ gels: next.length > 0 ? next : null });
  const own = gels.flatMap((gel, i): Field[] => ownColourFields(gel, i, (part) => putGels(withPatched(gels, i, part))));
  return [
    { title: 'Gels and nets', fields: [...gelLines(gels, putGels), ...netLines(nets)] },
    ...(own.length > 0 ? [{ title: 'Colour of the gel', fields: own }] : []),
  ];
}

const ordinal = (i: number, count: number, word: string): string =>
  count === 0
    ? capitalised(word)
    : i < count
      ? `${capitalised(word)}${count > 1 ? ` ${i + 1}` : ''}`
      : `Another ${word}`;
const capitalised = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);

function gelLines(gels: readonly Gel[], put: (next: readonly unknown[]) => Patch): Field[] {
  return Array.from({ length: Math.min(MOST_GELS, gels.length + 1) }, (_, i) => {
    const gel = gels[i];
    const now = gel ? (nameOfGel(gel) ?? NONE) : NONE;
    return choice(`gel${i}`, ordinal(i, gels.length, 'gel'), now, GEL_OPTIONS, (name) => {
      const chosen = ALL_GELS.get(name);
      if (name === now) return {};
      if (!chosen) return put(gels.filter((_gel, at) => at !== i));
      return put(gel ? gels.map((old, at) => (at === i ? chosen : old)) : [...gels, chosen]);
    });
  });
}

function ownColourFields(gel: Gel, i: number, patch: (part: Patch) => Patch): Field[] {
  const schema = gel.kind === 'custom' ? objectSchemaOf(gelSchema, gel) : null;
  if (!schema) return [];
  return schemaGroups(schema, gel, { title: 'Gel', length: 'mm', prefix: `gel${i}-`, patch }).flatMap(
    ({ fields }) => fields,
  );
}

function netLines(nets: readonly number[]): Field[] {
  return Array.from({ length: Math.min(MOST_NETS, nets.length + 1) }, (_, i) =>
    number(`net${i}`, ordinal(i, nets.length, 'net'), nets[i] ?? 0, {
      unit: 'stops',
      min: 0,
      max: 4,
      step: 0.5,
      decimals: 1,
      patch: (stops) => {
        const kept = nets.filter((_net, at) => at !== i);
        const next = stops < 0.1 ? kept : [...nets.slice(0, i), stops, ...nets.slice(i + 1)];
        return { nets: next.length > 0 ? next : null };
      },
    }),
  );
}
