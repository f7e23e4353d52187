import type { z } from 'zod';
import { fail, ok, type Result } from '../core/result.ts';
import { makeIssue, type SetupIssue, showValue } from './issues.ts';
import { type Patch, patchRecord } from './overrides.ts';
import { parseData } from './parseData.ts';
import { RECORD_WORDS, type RecordBase, type RecordListName } from './records.ts';

/** Edits of one list of records. Each gives a new list, or the same one when nothing changes. */
type ListName = RecordListName | 'frames';
type Edited<R> = Result<R[], readonly SetupIssue[]>;

const wordFor = (list: ListName): string => (list === 'frames' ? 'frame' : RECORD_WORDS[list]);

const noSuchRecord = (list: ListName, id: string): Result<never, readonly SetupIssue[]> =>
  fail([{ path: list, recordId: id, message: `There is no ${wordFor(list)} ${showValue(id)} to change.` }]);

/** @param index where it goes; at the end when left out. */
export function addToList<R extends RecordBase>(
  list: ListName,
  records: R[],
  schema: z.ZodType<R>,
  raw: Patch,
  index = records.length,
): Edited<R> {
  const at = Math.min(Math.max(Math.trunc(index), 0), records.length);
  const parsed = parseData(schema, raw, [list, at]);
  if (!parsed.ok) return parsed;
  if (records.some((record) => record.id === parsed.value.id)) {
    return fail([makeIssue([list, at, 'id'], `${showValue(parsed.value.id)} is taken; give it another`, parsed.value)]);
  }
  return ok(records.toSpliced(at, 0, parsed.value));
}

export function updateInList<R extends RecordBase>(
  list: ListName,
  records: R[],
  schema: z.ZodType<R>,
  id: string,
  patch: Patch,
): Edited<R> {
  const index = records.findIndex((record) => record.id === id);
  const record = records[index];
  if (!record) return noSuchRecord(list, id);
  const patched = patchRecord(schema, record, patch, { path: [list, index] });
  if (!patched.ok) return patched;
  return ok(patched.value === record ? records : records.with(index, patched.value));
}

export function removeFromList<R extends RecordBase>(list: ListName, records: R[], id: string): Edited<R> {
  const kept = records.filter((record) => record.id !== id);
  return kept.length === records.length ? noSuchRecord(list, id) : ok(kept);
}

export function moveInList<R extends RecordBase>(list: ListName, records: R[], id: string, toIndex: number): Edited<R> {
  const index = records.findIndex((record) => record.id === id);
  const record = records[index];
  if (!record) return noSuchRecord(list, id);
  const at = Math.min(Math.max(Math.trunc(toIndex), 0), records.length - 1);
  return ok(at === index ? records : records.toSpliced(index, 1).toSpliced(at, 0, record));
}
