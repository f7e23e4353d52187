import type { z } from 'zod';
import { fail, ok, type Result } from '../core/result.ts';
import {
  describeSchemaIssue,
  type FieldPath,
  makeIssue,
  type RecordLabel,
  type SetupIssue,
  valueAt,
} from './issues.ts';
import { cleanData, freezeDeep, isPlainObject, shareStructure } from './plainData.ts';

/** Long lists of faults help nobody; the first of them say what to mend. */
export const MAX_ISSUES = 100;

/**
 * Checks unchecked data against one schema.
 * @param path where the data stands in the setup, for the issues.
 * @param previous what stood there before: equal parts of it are kept as the same objects.
 */
export function parseData<T>(
  schema: z.ZodType<T>,
  raw: unknown,
  path: FieldPath,
  options: { readonly label?: RecordLabel; readonly previous?: unknown; readonly allowUnknown?: boolean } = {},
): Result<T, readonly SetupIssue[]> {
  const parsed = schema.safeParse(cleanData(raw));
  const labelAt = (inner: FieldPath): RecordLabel | undefined =>
    options.label ?? (path.length === 0 ? readLabel(raw, inner) : readLabel(raw, []));
  if (!parsed.success) {
    return fail(
      parsed.error.issues.slice(0, MAX_ISSUES).map((issue) => {
        const inner = issue.path.filter((part) => typeof part !== 'symbol');
        return makeIssue([...path, ...inner], describeSchemaIssue(issue, valueAt(raw, inner)), labelAt(inner));
      }),
    );
  }
  const unknown = options.allowUnknown ? [] : findUnknownFields(raw, parsed.data);
  if (unknown.length > 0) {
    return fail(
      unknown.slice(0, MAX_ISSUES).map((inner) => makeIssue([...path, ...inner], UNKNOWN_FIELD, labelAt(inner))),
    );
  }
  return ok(freezeDeep(shareStructure(options.previous, parsed.data)));
}

export const UNKNOWN_FIELD = 'is not a field that belongs here; check its spelling or leave it out';

function readLabel(raw: unknown, path: FieldPath): RecordLabel | undefined {
  const record = valueAt(raw, path.slice(0, 2));
  return isPlainObject(record) ? record : undefined;
}

/** Paths of fields that the schema dropped because it does not know them. */
export function findUnknownFields(raw: unknown, parsed: unknown): FieldPath[] {
  if (Array.isArray(raw) && Array.isArray(parsed)) {
    return raw.flatMap((value, i) => findUnknownFields(value, parsed[i]).map((path) => [i, ...path]));
  }
  if (!isPlainObject(raw) || !isPlainObject(parsed)) return [];
  return Object.entries(raw).flatMap(([key, value]): FieldPath[] => {
    if (value === undefined) return [];
    if (!Object.hasOwn(parsed, key)) return [[key]];
    return findUnknownFields(value, parsed[key]).map((path) => [key, ...path]);
  });
}
