import type { z } from 'zod';
import type { RecordChange } from '../analysis/contracts.ts';
import { cameraSchema } from '../camera/records.ts';
import { assertNever, fail, ok, type Result } from '../core/result.ts';
import { nameSchema } from '../core/schema.ts';
import { subjectSchema, turntableSchema } from '../scene/records.ts';
import { forgetInArrangement, withGroup, withLocked, withoutGroup } from './arrangement.ts';
import { addToList, moveInList, removeFromList, updateInList } from './editList.ts';
import { findIntegrityIssues } from './integrity.ts';
import { type SetupIssue, showValue } from './issues.ts';
import { applyMergePatch } from './mergePatch.ts';
import { clearOverride, mergeOverride, setHidden } from './overrideEdits.ts';
import type { Patch } from './overrides.ts';
import { MAX_ISSUES, parseData } from './parseData.ts';
import { freezeDeep } from './plainData.ts';
import { editRecordList, type RecordListName } from './records.ts';
import { briefSchema, frameSchema, roomSchema, type Setup } from './setup.ts';

/**
 * A change to the setup as plain data. Every patch is a JSON Merge Patch (RFC 7396): objects merge, lists are replaced
 * whole, null takes an optional field away.
 */
export type DocumentChange =
  | RecordChange
  | { readonly op: 'move'; readonly collection: RecordListName; readonly id: string; readonly toIndex: number }
  | { readonly op: 'setTitle'; readonly title: string }
  | { readonly op: 'updateBrief'; readonly patch: Patch }
  | { readonly op: 'updateSubject'; readonly patch: Patch }
  /** Puts the turntable in when there is none; a null patch takes it away. */
  | { readonly op: 'updateTurntable'; readonly patch: Patch | null }
  /** The same for the room and its mains. */
  | { readonly op: 'updateRoom'; readonly patch: Patch | null }
  | { readonly op: 'addFrame'; readonly frame: Patch & { readonly id: string }; readonly index?: number }
  | { readonly op: 'updateFrame'; readonly id: string; readonly patch: Patch }
  | { readonly op: 'removeFrame'; readonly id: string }
  | { readonly op: 'moveFrame'; readonly id: string; readonly toIndex: number }
  /** Lets a record differ in one frame; what comes to equal the base record drops out of the override. */
  | {
      readonly op: 'override';
      readonly frameId: string;
      readonly collection: RecordListName;
      readonly id: string;
      readonly patch: Patch;
    }
  | { readonly op: 'clearOverride'; readonly frameId: string; readonly id: string }
  /** Locked things stay where they are until they are unlocked. A frame id stands for its camera. */
  | { readonly op: 'setLocked'; readonly ids: readonly string[]; readonly locked: boolean }
  /** Takes the records out of any other group; what is left of that with one thing in it goes. */
  | { readonly op: 'group'; readonly id: string; readonly name: string; readonly ids: readonly string[] }
  | { readonly op: 'ungroup'; readonly id: string }
  | { readonly op: 'setHidden'; readonly frameId: string; readonly id: string; readonly hidden: boolean };

type Issues = readonly SetupIssue[];

/**
 * Plays changes in order and checks the outcome. All or nothing: a fault in any of them leaves the setup as it was.
 * Records that no change touches keep their identity; changes that change nothing give back `setup` itself.
 */
export function applyChanges(setup: Setup, changes: readonly DocumentChange[]): Result<Setup, Issues> {
  let current = setup;
  for (const change of changes) {
    const next = applyChange(current, change);
    if (!next.ok) return next;
    current = next.value;
  }
  if (current === setup) return ok(setup);
  const issues = findIntegrityIssues(current);
  if (issues.length > 0) return fail(issues.slice(0, MAX_ISSUES));
  // Lists are frozen as well as records, so that nobody can edit the document behind the history's back.
  for (const list of [current.pieces, current.fixtures, current.grip, current.frames]) Object.freeze(list);
  return ok(Object.freeze(current));
}

function applyChange(setup: Setup, change: DocumentChange): Result<Setup, Issues> {
  switch (change.op) {
    case 'add':
    case 'update':
    case 'remove':
      return change.collection === 'camera'
        ? applyCameraChange(setup, change)
        : applyListChange(setup, { ...change, collection: change.collection });
    case 'move':
      return editRecordList(setup, change.collection, (records) =>
        moveInList(change.collection, records, change.id, change.toIndex),
      );
    case 'setTitle': {
      const title = parseData(nameSchema, change.title, ['title']);
      return title.ok ? ok(title.value === setup.title ? setup : { ...setup, title: title.value }) : title;
    }
    case 'updateBrief': {
      const brief = patchField(briefSchema, setup.brief, change.patch, 'brief');
      return brief.ok ? ok(brief.value === setup.brief ? setup : { ...setup, brief: brief.value }) : brief;
    }
    case 'updateSubject': {
      const subject = patchField(subjectSchema, setup.subject, change.patch, 'subject');
      return subject.ok ? ok(subject.value === setup.subject ? setup : { ...setup, subject: subject.value }) : subject;
    }
    case 'updateTurntable':
      return updateTurntable(setup, change.patch);
    case 'updateRoom':
      return updateRoom(setup, change.patch);
    case 'addFrame':
      return withFrames(setup, addToList('frames', setup.frames, frameSchema, change.frame, change.index));
    case 'updateFrame':
      return withFrames(setup, updateInList('frames', setup.frames, frameSchema, change.id, change.patch));
    case 'removeFrame':
      return withFrames(forgetInArrangement(setup, change.id), removeFromList('frames', setup.frames, change.id));
    case 'moveFrame':
      return withFrames(setup, moveInList('frames', setup.frames, change.id, change.toIndex));
    case 'override':
      return mergeOverride(setup, change);
    case 'clearOverride':
      return clearOverride(setup, change.frameId, change.id);
    case 'setHidden':
      return setHidden(setup, change.frameId, change.id, change.hidden);
    case 'setLocked':
      return withLocked(setup, change.ids, change.locked);
    case 'group':
      return withGroup(setup, { id: change.id, name: change.name, ids: [...change.ids] });
    case 'ungroup':
      return withoutGroup(setup, change.id);
    default:
      return assertNever(change);
  }
}

function applyListChange(
  setup: Setup,
  change: RecordChange & { readonly collection: RecordListName },
): Result<Setup, Issues> {
  const { collection } = change;
  switch (change.op) {
    case 'add':
      return editRecordList(setup, collection, (records, schema) =>
        addToList(collection, records, schema, change.record),
      );
    case 'update':
      return editRecordList(setup, collection, (records, schema) =>
        updateInList(collection, records, schema, change.id, change.patch),
      );
    case 'remove': {
      const removed = editRecordList(setup, collection, (records) => removeFromList(collection, records, change.id));
      return removed.ok ? ok(forgetRecord(removed.value, change.id)) : removed;
    }
  }
}

/** The camera belongs to its frame: its id is the frame id, and it can be neither added nor removed. */
function applyCameraChange(setup: Setup, change: RecordChange): Result<Setup, Issues> {
  if (change.op !== 'update') {
    return fail([{ path: 'camera', message: 'Each frame has exactly one camera; add or remove the frame instead.' }]);
  }
  const index = setup.frames.findIndex((frame) => frame.id === change.id);
  const frame = setup.frames[index];
  if (!frame)
    return fail([{ path: 'camera', message: `There is no frame ${showValue(change.id)} to set a camera in.` }]);
  const path = ['frames', index, 'camera'];
  const parsed = parseData(cameraSchema, applyMergePatch(frame.camera, change.patch), path, {
    previous: frame.camera,
    label: frame,
  });
  if (!parsed.ok) return parsed;
  if (parsed.value === frame.camera) return ok(setup);
  const edited = freezeDeep({ ...frame, camera: parsed.value });
  return ok({ ...setup, frames: setup.frames.with(index, edited) });
}

const withFrames = (setup: Setup, frames: Result<Setup['frames'], Issues>): Result<Setup, Issues> => {
  if (!frames.ok) return frames;
  return ok(frames.value === setup.frames ? setup : { ...setup, frames: frames.value });
};

function patchField<T extends object>(schema: z.ZodType<T>, base: T, patch: Patch, path: string): Result<T, Issues> {
  return parseData(schema, applyMergePatch(base, patch), [path], { previous: base });
}

function updateTurntable(setup: Setup, patch: Patch | null): Result<Setup, Issues> {
  if (patch === null) {
    const { turntable, ...rest } = setup;
    return ok(turntable ? rest : setup);
  }
  const parsed = parseData(turntableSchema, applyMergePatch(setup.turntable ?? {}, patch), ['turntable'], {
    previous: setup.turntable,
  });
  if (!parsed.ok) return parsed;
  return ok(parsed.value === setup.turntable ? setup : { ...setup, turntable: parsed.value });
}

function updateRoom(setup: Setup, patch: Patch | null): Result<Setup, Issues> {
  if (patch === null) {
    const { room, ...rest } = setup;
    return ok(room ? rest : setup);
  }
  const parsed = parseData(roomSchema, applyMergePatch(setup.room ?? {}, patch), ['room'], { previous: setup.room });
  if (!parsed.ok) return parsed;
  return ok(parsed.value === setup.room ? setup : { ...setup, room: parsed.value });
}

/** Drops what frames and the turntable say of a record that is gone. The hero stays named: see the integrity check. */
function forgetRecord(setup: Setup, id: string): Setup {
  const frames = setup.frames.map((frame) => {
    const overrides = frame.overrides.filter((override) => override.id !== id);
    const hidden = frame.hidden.filter((hiddenId) => hiddenId !== id);
    if (overrides.length === frame.overrides.length && hidden.length === frame.hidden.length) return frame;
    return freezeDeep({ ...frame, overrides, hidden });
  });
  const carries = setup.turntable?.carries.filter((carriedId) => carriedId !== id);
  return {
    ...forgetInArrangement(setup, id),
    ...(frames.some((frame, i) => frame !== setup.frames[i]) ? { frames } : {}),
    ...(setup.turntable && carries && carries.length < setup.turntable.carries.length
      ? { turntable: freezeDeep({ ...setup.turntable, carries }) }
      : {}),
  };
}
