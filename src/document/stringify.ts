import { isPlainObject } from './plainData.ts';

const MAX_LINE = 110;

/**
 * JSON for people: two spaces a level, lists of numbers or short texts on one line where they fit. Numbers are written
 * with the fewest digits that read back as the same number (ECMAScript Number::toString), so nothing is lost.
 */
export function stringifyReadable(value: unknown, indent = ''): string {
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    if (value.length === 0) return '[]';
    const items = value.map((item) => stringifyReadable(item, inner));
    const isFlat = value.every((item) => typeof item !== 'object' || item === null);
    const line = `[${items.join(', ')}]`;
    if (isFlat && indent.length + line.length <= MAX_LINE) return line;
    return `[\n${items.map((item) => inner + item).join(',\n')}\n${indent}]`;
  }
  if (isPlainObject(value)) {
    const fields = Object.entries(value).filter(([, field]) => field !== undefined);
    if (fields.length === 0) return '{}';
    const lines = fields.map(([key, field]) => `${inner}${JSON.stringify(key)}: ${stringifyReadable(field, inner)}`);
    return `{\n${lines.join(',\n')}\n${indent}}`;
  }
  return JSON.stringify(value);
}

/** The same data with the fields of every object in alphabetical order. */
export function sortFields(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sortFields);
  if (!isPlainObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, field]) => [key, sortFields(field)]),
  );
}
