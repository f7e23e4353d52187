import { invariant } from '../core/result.ts';
import type { RecordBase } from './records.ts';
import type { Setup } from './setup.ts';

/** What two versions of a setup differ by, reversible. Records are held whole, by identity; unchanged ones are not. */
export interface SetupDiff {
  readonly pieces?: ListDiff<Setup['pieces'][number]>;
  readonly fixtures?: ListDiff<Setup['fixtures'][number]>;
  readonly grip?: ListDiff<Setup['grip'][number]>;
  readonly frames?: ListDiff<Setup['frames'][number]>;
  readonly title?: FieldDiff<Setup['title']>;
  readonly brief?: FieldDiff<Setup['brief']>;
  readonly subject?: FieldDiff<Setup['subject']>;
  readonly turntable?: FieldDiff<Setup['turntable']>;
  readonly room?: FieldDiff<Setup['room']>;
  readonly arrangement?: FieldDiff<Setup['arrangement']>;
}

export interface FieldDiff<T> {
  readonly from: T;
  readonly to: T;
}

export interface ListDiff<R> {
  readonly added: readonly R[];
  readonly removed: readonly R[];
  readonly updated: readonly (readonly [from: R, to: R])[];
  /** Ids in order, when the order or the membership changed. */
  readonly order?: FieldDiff<readonly string[]>;
}

/** Compares by identity, which is enough because unchanged records keep theirs. Null when nothing differs. */
export function diffSetups(before: Setup, after: Setup): SetupDiff | null {
  const diff: SetupDiff = {
    ...withValue('pieces', diffList(before.pieces, after.pieces)),
    ...withValue('fixtures', diffList(before.fixtures, after.fixtures)),
    ...withValue('grip', diffList(before.grip, after.grip)),
    ...withValue('frames', diffList(before.frames, after.frames)),
    ...withValue('title', diffField(before.title, after.title)),
    ...withValue('brief', diffField(before.brief, after.brief)),
    ...withValue('subject', diffField(before.subject, after.subject)),
    ...withValue('turntable', diffField(before.turntable, after.turntable)),
    ...withValue('room', diffField(before.room, after.room)),
    ...withValue('arrangement', diffField(before.arrangement, after.arrangement)),
  };
  return Object.keys(diff).length === 0 ? null : diff;
}

/** Plays a diff forward on the version it starts from, or backward on the version it ends at. */
export function applyDiff(setup: Setup, diff: SetupDiff, direction: 'forward' | 'backward'): Setup {
  const turn = <R>(list: ListDiff<R>): ListDiff<R> => (direction === 'forward' ? list : invertList(list));
  const pick = <T>(field: FieldDiff<T>): T => (direction === 'forward' ? field.to : field.from);
  const { turntable, room, arrangement, ...rest } = setup;
  const nextTurntable = diff.turntable ? pick(diff.turntable) : turntable;
  const nextRoom = diff.room ? pick(diff.room) : room;
  const nextArrangement = diff.arrangement ? pick(diff.arrangement) : arrangement;
  return Object.freeze({
    ...rest,
    ...(diff.title ? { title: pick(diff.title) } : {}),
    ...(diff.brief ? { brief: pick(diff.brief) } : {}),
    ...(diff.subject ? { subject: pick(diff.subject) } : {}),
    ...(diff.pieces ? { pieces: applyList(setup.pieces, turn(diff.pieces)) } : {}),
    ...(diff.fixtures ? { fixtures: applyList(setup.fixtures, turn(diff.fixtures)) } : {}),
    ...(diff.grip ? { grip: applyList(setup.grip, turn(diff.grip)) } : {}),
    ...(diff.frames ? { frames: applyList(setup.frames, turn(diff.frames)) } : {}),
    ...(nextTurntable ? { turntable: nextTurntable } : {}),
    ...(nextRoom ? { room: nextRoom } : {}),
    ...(nextArrangement ? { arrangement: nextArrangement } : {}),
  });
}

const withValue = <K extends string, V>(key: K, value: V | null): { [P in K]?: V } =>
  value === null ? {} : ({ [key]: value } as { [P in K]?: V });

const diffField = <T>(from: T, to: T): FieldDiff<T> | null => (from === to ? null : { from, to });

function diffList<R extends RecordBase>(before: readonly R[], after: readonly R[]): ListDiff<R> | null {
  if (before === after) return null;
  const beforeById = new Map(before.map((record) => [record.id, record]));
  const afterIds = new Set(after.map((record) => record.id));
  const added = after.filter((record) => !beforeById.has(record.id));
  const removed = before.filter((record) => !afterIds.has(record.id));
  const updated = after.flatMap((to): [R, R][] => {
    const from = beforeById.get(to.id);
    return from === undefined || from === to ? [] : [[from, to]];
  });
  const sameOrder = before.length === after.length && before.every((record, i) => record.id === after[i]?.id);
  if (sameOrder && updated.length === 0) return null;
  const order = { from: before.map((record) => record.id), to: after.map((record) => record.id) };
  return { added, removed, updated, ...(sameOrder ? {} : { order }) };
}

const invertList = <R>(diff: ListDiff<R>): ListDiff<R> => ({
  added: diff.removed,
  removed: diff.added,
  updated: diff.updated.map(([from, to]) => [to, from] as const),
  ...(diff.order ? { order: { from: diff.order.to, to: diff.order.from } } : {}),
});

function applyList<R extends RecordBase>(records: readonly R[], diff: ListDiff<R>): R[] {
  const byId = new Map(records.map((record) => [record.id, record]));
  for (const record of diff.removed) byId.delete(record.id);
  for (const record of diff.added) byId.set(record.id, record);
  for (const [from, to] of diff.updated) {
    invariant(byId.get(from.id) === from, () => `the diff of ${from.id} does not start from what is there`);
    byId.set(to.id, to);
  }
  const order = diff.order?.to ?? records.map((record) => record.id);
  const result = order.map((id) => {
    const record = byId.get(id);
    invariant(record !== undefined, () => `the order of a diff names ${id}, which is not there`);
    return record;
  });
  Object.freeze(result);
  return result;
}
