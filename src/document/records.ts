import type { z } from 'zod';
import { ok, type Result } from '../core/result.ts';
import { fixtureSchema, gripSchema } from '../fixtures/records.ts';
import { pieceSchema } from '../scene/records.ts';
import type { Setup } from './setup.ts';

/** The lists of things on the set. Frames are a list too, but not of things. */
export type RecordListName = 'pieces' | 'fixtures' | 'grip';
export const RECORD_LIST_NAMES = ['pieces', 'fixtures', 'grip'] as const satisfies readonly RecordListName[];

/** What people call one entry of each list. */
export const RECORD_WORDS = { pieces: 'piece', fixtures: 'fixture', grip: 'grip item' } as const;

export interface RecordBase {
  readonly id: string;
  readonly name: string;
}

/** Works on one list with its own types: `edit` gets the records and their schema and gives the new records. */
export function editRecordList<E>(
  setup: Setup,
  list: RecordListName,
  edit: <R extends RecordBase>(records: R[], schema: z.ZodType<R>) => Result<R[], E>,
): Result<Setup, E> {
  switch (list) {
    case 'pieces': {
      const edited = edit(setup.pieces, pieceSchema);
      if (!edited.ok) return edited;
      return ok(edited.value === setup.pieces ? setup : { ...setup, pieces: edited.value });
    }
    case 'fixtures': {
      const edited = edit(setup.fixtures, fixtureSchema);
      if (!edited.ok) return edited;
      return ok(edited.value === setup.fixtures ? setup : { ...setup, fixtures: edited.value });
    }
    case 'grip': {
      const edited = edit(setup.grip, gripSchema);
      if (!edited.ok) return edited;
      return ok(edited.value === setup.grip ? setup : { ...setup, grip: edited.value });
    }
  }
}

/** Looks at one record with its own type and schema; null when there is no such record. */
export function visitRecord<T>(
  setup: Setup,
  list: RecordListName,
  id: string,
  visit: <R extends RecordBase>(record: R, schema: z.ZodType<R>) => T,
): T | null {
  const visitIn = <R extends RecordBase>(records: readonly R[], schema: z.ZodType<R>): T | null => {
    const record = records.find((candidate) => candidate.id === id);
    return record === undefined ? null : visit(record, schema);
  };
  switch (list) {
    case 'pieces':
      return visitIn(setup.pieces, pieceSchema);
    case 'fixtures':
      return visitIn(setup.fixtures, fixtureSchema);
    case 'grip':
      return visitIn(setup.grip, gripSchema);
  }
}
