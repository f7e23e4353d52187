import { type JsonSchema, NAMED_PARTS } from './setupJsonSchema.ts';

type Property = JsonSchema | boolean | undefined;

/** Markdown tables of every field, one for the setup and one for each named part. */
export function writeFieldTables(schema: JsonSchema): string {
  const parts = Object.keys(NAMED_PARTS).map((name) => writePart(name, schema.$defs?.[name]));
  return [writeTable('Setup', schema, 'The file itself.'), ...parts].join('\n');
}

function writePart(name: string, part: Property): string {
  const schema = asSchema(part);
  if (!schema.oneOf) return writeTable(titleOf(name), schema, schema.description ?? '');
  const kinds = schema.oneOf.map((option) => {
    const tag = tagOf(asSchema(option));
    return writeTable(`${titleOf(name)} of ${tag.field} ${tag.values.map(code).join(', ')}`, asSchema(option), '', 4);
  });
  return [`### ${titleOf(name)}\n`, schema.description ? `${schema.description}\n` : '', ...kinds]
    .filter((block) => block !== '')
    .join('\n');
}

function writeTable(title: string, schema: JsonSchema, lead: string, level = 3): string {
  const required = new Set(schema.required ?? []);
  const rows = Object.entries(schema.properties ?? {})
    .filter(([name]) => name !== '$schema')
    .map(([name, property]) => {
      const field = asSchema(property);
      const without = required.has(name) ? 'required' : describeDefault(field);
      return `| ${code(name)} | ${describeType(field)} | ${without} | ${escapeBars(field.description ?? '')} |`;
    });
  const intro = [lead, level === 4 ? (schema.description ?? '') : '']
    .filter((text) => text !== '')
    .map((text) => `${text}\n`);
  return [
    `${'#'.repeat(level)} ${title}\n`,
    ...intro,
    '| field | value | when left out | meaning |\n| --- | --- | --- | --- |',
    `${rows.join('\n')}\n`,
  ].join('\n');
}

/** The field by which the kinds of a record are told apart. */
function tagOf(option: JsonSchema): { readonly field: string; readonly values: readonly string[] } {
  for (const field of ['kind', 'shape', 'type', 'unit']) {
    const tag = option.properties?.[field];
    if (tag === undefined) continue;
    const { const: only, enum: several } = asSchema(tag);
    return { field, values: (several ?? [only]).map(String) };
  }
  return { field: '', values: [] };
}

function describeDefault(field: JsonSchema): string {
  if (field.default === undefined) return 'none';
  const text = JSON.stringify(field.default);
  return text === '{}' || text === '[]' ? 'empty' : code(text.replaceAll(',', ', '));
}

function describeType(field: JsonSchema): string {
  if (field.$ref) return `[${lastOf(field.$ref)}](#${anchorOf(lastOf(field.$ref))})`;
  if (field.const !== undefined) return code(JSON.stringify(field.const));
  if (field.enum) return field.enum.map((value) => code(JSON.stringify(value))).join(', ');
  switch (field.type) {
    case 'number':
    case 'integer':
      return `${field.type === 'integer' ? 'whole number' : 'number'}${describeRange(field)}`;
    case 'string':
      return `text${field.maxLength === undefined ? '' : `, at most ${field.maxLength} letters`}`;
    case 'boolean':
      return 'true or false';
    case 'array':
      return describeList(field);
    default:
      return 'object';
  }
}

function describeList(field: JsonSchema): string {
  if (field.prefixItems) {
    return `${field.prefixItems.length} numbers${describeRange(asSchema(field.prefixItems[0]))}`;
  }
  const items = Array.isArray(field.items) ? field.items[0] : field.items;
  const atMost = field.maxItems === undefined ? '' : `, at most ${field.maxItems}`;
  return `list of ${describeType(asSchema(items))}${atMost}`;
}

function describeRange({ minimum, exclusiveMinimum, maximum }: JsonSchema): string {
  // The widest whole numbers are no bound worth telling.
  const most = maximum !== undefined && Math.abs(maximum) < Number.MAX_SAFE_INTEGER ? maximum : undefined;
  const least = minimum ?? exclusiveMinimum;
  const low = least === undefined ? '' : `${minimum === undefined ? 'more than' : 'from'} ${least}`;
  const high = most === undefined ? '' : `${low === '' || minimum === undefined ? 'at most' : 'to'} ${most}`;
  const range = [low, high].filter((text) => text !== '').join(minimum === undefined ? ', ' : ' ');
  return range === '' ? '' : `, ${range}`;
}

const asSchema = (property: Property): JsonSchema => (typeof property === 'object' ? property : {});
const code = (text: string): string => `\`${text}\``;
const escapeBars = (text: string): string => text.replaceAll('|', '\\|');
const lastOf = (ref: string): string => ref.slice(ref.lastIndexOf('/') + 1);

/** `glassProfile` as `Glass profile`. */
const titleOf = (name: string): string => {
  const spaced = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return spaced.charAt(0).toUpperCase() + spaced.slice(1);
};
/** Small parts are described by hand under one heading. */
const anchorOf = (name: string): string =>
  name in NAMED_PARTS ? titleOf(name).toLowerCase().replaceAll(' ', '-') : 'small-parts';
