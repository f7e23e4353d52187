import { createMergePatch } from '../../document/mergePatch.ts';
import { defaultGarnish, GARNISH_KINDS } from '../../scene/pieceDefaults.ts';
import { type Garnish, garnishSchema, type Piece } from '../../scene/records.ts';
import { withPatched } from './drinkFields.ts';
import { choice, type Field, type FieldGroup, type Patch } from './fields.ts';
import { plainWords } from './fieldWords.ts';
import { objectSchemaOf, schemaFields } from './schemaFields.ts';

const NONE = 'none';
const MOST = 12;
const KINDS: Readonly<Record<string, string>> = Object.fromEntries(
  GARNISH_KINDS.map((kind) => [kind === 'olives' ? 'olives on a pick' : plainWords(kind), kind]),
);
const kindOf = (value: string) => GARNISH_KINDS.find((kind) => kind === value);

/** The garnish of a glass: one line for each, an empty one to add another, and a group of measures for each. */
export function garnishGroups(glass: Extract<Piece, { kind: 'glass' }>): FieldGroup[] {
  const list = glass.garnish ?? [];
  const put = (next: readonly unknown[]): Patch => ({ garnish: next.length > 0 ? next : null });
  const lines: Field[] = Array.from({ length: Math.min(MOST, list.length + 1) }, (_, i) => {
    const garnish = list[i];
    const label = i === 0 ? 'On the glass' : i < list.length ? 'and' : 'Another';
    return choice(`garnish${i}`, label, garnish?.kind ?? NONE, { [NONE]: NONE, ...KINDS }, (value) => {
      const kind = kindOf(value);
      if (!kind) return put(list.filter((_item, at) => at !== i));
      if (kind === garnish?.kind) return {};
      return put(
        garnish ? list.map((old, at) => (at === i ? defaultGarnish(kind) : old)) : [...list, defaultGarnish(kind)],
      );
    });
  });
  return [
    { title: 'Garnish', fields: lines },
    ...list.map((garnish, i) => ({
      title: list.length === 1 ? wordsOf(garnish) : `${wordsOf(garnish)}, ${i + 1}`,
      fields: garnishFields(garnish, `garnish${i}-`, (part) => put(withPatched(list, i, part))),
    })),
  ];
}

/** A garnish that lies by itself. */
export function garnishItemGroups(item: Garnish): FieldGroup[] {
  const what = choice('itemKind', 'What', item.kind, KINDS, (value) => {
    const kind = kindOf(value);
    return kind && kind !== item.kind ? { item: createMergePatch(item, defaultGarnish(kind)) } : {};
  });
  return [{ title: 'Garnish', fields: [what, ...garnishFields(item, 'item-', (part) => ({ item: part }))] }];
}

function garnishFields(garnish: Garnish, prefix: string, patch: (part: Patch) => Patch): Field[] {
  const schema = objectSchemaOf(garnishSchema, garnish);
  return schema ? schemaFields(schema, garnish, { length: 'mm', prefix, patch, skip: ['kind'] }) : [];
}

const wordsOf = ({ kind }: Garnish): string => {
  const words = Object.entries(KINDS).find(([, value]) => value === kind)?.[0] ?? plainWords(kind);
  return words.charAt(0).toUpperCase() + words.slice(1);
};
