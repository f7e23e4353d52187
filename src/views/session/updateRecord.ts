import type { CollectionName, RecordChange } from '../../analysis/contracts.ts';

/** A change of some fields of one record; objects merge, lists are replaced whole, null takes a field away. */
export const updateRecord = (
  collection: CollectionName,
  id: string,
  patch: Readonly<Record<string, unknown>>,
): RecordChange => ({ op: 'update', collection, id, patch });
