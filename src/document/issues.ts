import type { z } from 'zod';
import { isPlainObject } from './plainData.ts';

/** One thing wrong with a setup or with a change to it. */
export interface SetupIssue {
  /** Where, for programs: `fixtures[2].output.value`. */
  readonly path: string;
  /** The record that it belongs to; for a camera, its frame. */
  readonly recordId?: string;
  /** One sentence that names the field and the mend. */
  readonly message: string;
}

export type PathPart = string | number;
export type FieldPath = readonly PathPart[];

/** What a record is called, when it says so. Read from unchecked data, so anything may stand there. */
export interface RecordLabel {
  readonly id?: unknown;
  readonly name?: unknown;
}

const RECORD_LISTS: ReadonlySet<PathPart> = new Set(['pieces', 'fixtures', 'grip', 'frames']);

/** `['fixtures', 2, 'output', 'value']` as `fixtures[2].output.value`. */
export const formatPath = (path: FieldPath): string =>
  path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${part}]`;
    return text === '' ? part : `${text}.${part}`;
  }, '');

/**
 * Builds an issue. Where the path leads into a record, the sentence begins with the record's place and name, and the
 * field is named from there on: `fixtures[2] "Back panel": output.value must be more than 0; it is -5.`
 * @param predicate the rest of the sentence after the field, without the full stop.
 */
export function makeIssue(path: FieldPath, predicate: string, record?: RecordLabel): SetupIssue {
  const [list, index] = path;
  const inRecord = list !== undefined && RECORD_LISTS.has(list) && typeof index === 'number';
  if (!inRecord) return { path: formatPath(path), message: `${formatPath(path)} ${predicate}.` };
  const name = typeof record?.name === 'string' && record.name !== '' ? ` ${showValue(record.name)}` : '';
  const field = formatPath(path.slice(2));
  return {
    path: formatPath(path),
    ...(typeof record?.id === 'string' ? { recordId: record.id } : {}),
    message: `${formatPath([list, index])}${name}${field === '' ? '' : `: ${field}`} ${predicate}.`,
  };
}

/** A value as people can read it back, cut short when long. */
export function showValue(value: unknown): string {
  if (value === undefined) return 'not there';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : 'not a finite number';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (isPlainObject(value)) return 'an object';
  if (typeof value !== 'string') return String(value);
  return JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}...` : value);
}

/** Reads a value by path from unchecked data; undefined where the path breaks off. */
export function valueAt(root: unknown, path: FieldPath): unknown {
  let value = root;
  for (const part of path) {
    if (Array.isArray(value)) value = typeof part === 'number' ? value[part] : undefined;
    else if (isPlainObject(value) && Object.hasOwn(value, part)) value = value[String(part)];
    else return undefined;
  }
  return value;
}

const WANTED: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'an object with its fields',
  record: 'an object with its fields',
};

/** What the schema found wrong, as the end of a sentence that begins with the field. */
export function describeSchemaIssue(issue: z.core.$ZodIssue, value: unknown): string {
  const itIs = `; it is ${showValue(value)}`;
  switch (issue.code) {
    case 'invalid_type': {
      const wanted = WANTED[issue.expected] ?? issue.expected;
      if (value === undefined) return `is missing; give ${wanted}`;
      if (typeof value === 'number' && !Number.isFinite(value)) return 'must be an ordinary number; it is not finite';
      return `must be ${wanted}${itIs}`;
    }
    case 'too_small':
      if (issue.origin === 'string') return issue.minimum === 1 ? 'must not be empty' : `is too short${itIs}`;
      if (issue.origin === 'array') return describeCount('at least', Number(issue.minimum), value);
      return `must be ${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${itIs}`;
    case 'too_big':
      if (issue.origin === 'string') {
        return `must have at most ${issue.maximum} letters; it has ${typeof value === 'string' ? value.length : 0}`;
      }
      if (issue.origin === 'array') return describeCount('at most', Number(issue.maximum), value);
      return `must be ${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${itIs}`;
    case 'invalid_format':
      return `must ${issue.message}${itIs}`;
    case 'invalid_value':
      return describeChoice(issue.values.map(String), value);
    case 'invalid_union':
      return describeChoice('options' in issue ? (issue.options ?? []).map(String) : [], value);
    case 'custom':
      return `must ${issue.message}`;
    default:
      return `is not right: ${issue.message}`;
  }
}

const describeCount = (bound: string, count: number, value: unknown): string =>
  `must have ${bound} ${count} ${count === 1 ? 'entry' : 'entries'}; it has ${Array.isArray(value) ? value.length : 0}`;

function describeChoice(options: readonly string[], value: unknown): string {
  const list = options.length === 1 ? options[0] : `one of ${options.join(', ')}`;
  return value === undefined ? `is missing; give ${list}` : `must be ${list}; it is ${showValue(value)}`;
}
