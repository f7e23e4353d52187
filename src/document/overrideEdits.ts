import { fail, ok, type Result } from '../core/result.ts';
import { makeIssue, type SetupIssue, showValue } from './issues.ts';
import { createMergePatch } from './mergePatch.ts';
import { type Patch, patchRecord } from './overrides.ts';
import { freezeDeep } from './plainData.ts';
import { RECORD_WORDS, type RecordListName, visitRecord } from './records.ts';
import type { Frame, Setup } from './setup.ts';

/** Edits of what one frame does differently: overrides and hidden records. */
type Edited = Result<Setup, readonly SetupIssue[]>;

interface OverrideEdit {
  readonly frameId: string;
  readonly collection: RecordListName;
  readonly id: string;
  readonly patch: Patch;
}

/**
 * Lays a patch over what the frame shows of a record already. The override is stored anew as the smallest patch from
 * the base record, so what has come to equal the base again drops out, and an override that says nothing goes.
 */
export function mergeOverride(setup: Setup, edit: OverrideEdit): Edited {
  return editFrame(setup, edit.frameId, (frame, index) => {
    const at = frame.overrides.findIndex((override) => override.id === edit.id);
    const place = {
      path: ['frames', index, 'overrides', at < 0 ? frame.overrides.length : at, 'patch'],
      label: frame,
    };
    if ('kind' in edit.patch) {
      return fail([makeIssue([...place.path, 'kind'], 'must not differ from frame to frame; leave it out', frame)]);
    }
    const patch = visitRecord(setup, edit.collection, edit.id, (base, schema) => {
      const shown = patchRecord(schema, base, frame.overrides[at]?.patch ?? {}, place);
      if (!shown.ok) return shown;
      const wanted = patchRecord(schema, shown.value, edit.patch, place);
      return wanted.ok ? ok(createMergePatch(base, wanted.value)) : wanted;
    });
    if (patch === null) {
      const message = `There is no ${RECORD_WORDS[edit.collection]} ${showValue(edit.id)} to change in this frame.`;
      return fail([{ path: edit.collection, recordId: edit.id, message }]);
    }
    if (!patch.ok) return patch;
    const override = { collection: edit.collection, id: edit.id, patch: patch.value };
    const others = frame.overrides.filter((_, i) => i !== at);
    if (Object.keys(patch.value).length === 0) return ok(at < 0 ? frame : { ...frame, overrides: others });
    return ok({ ...frame, overrides: at < 0 ? [...others, override] : frame.overrides.with(at, override) });
  });
}

/** Lets a record be in the frame what it is in the base again. */
export function clearOverride(setup: Setup, frameId: string, id: string): Edited {
  return editFrame(setup, frameId, (frame) => {
    const overrides = frame.overrides.filter((override) => override.id !== id);
    return ok(overrides.length === frame.overrides.length ? frame : { ...frame, overrides });
  });
}

/** Leaves a record out of a frame, or puts it back. */
export function setHidden(setup: Setup, frameId: string, id: string, hidden: boolean): Edited {
  return editFrame(setup, frameId, (frame) => {
    if (frame.hidden.includes(id) === hidden) return ok(frame);
    return ok({ ...frame, hidden: hidden ? [...frame.hidden, id] : frame.hidden.filter((other) => other !== id) });
  });
}

function editFrame(
  setup: Setup,
  frameId: string,
  edit: (frame: Frame, index: number) => Result<Frame, readonly SetupIssue[]>,
): Edited {
  const index = setup.frames.findIndex((frame) => frame.id === frameId);
  const frame = setup.frames[index];
  if (!frame) {
    return fail([{ path: 'frames', recordId: frameId, message: `There is no frame ${showValue(frameId)} to change.` }]);
  }
  const edited = edit(frame, index);
  if (!edited.ok) return edited;
  if (edited.value === frame) return ok(setup);
  return ok({ ...setup, frames: setup.frames.with(index, freezeDeep(edited.value)) });
}
