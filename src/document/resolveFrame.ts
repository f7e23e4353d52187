import { fail, ok, type Result } from '../core/result.ts';
import type { Turntable } from '../scene/records.ts';
import type { FrameScene } from '../scene/setModel.ts';
import { type SetupIssue, showValue } from './issues.ts';
import { type Patch, resolveFixture, resolveGripItem, resolvePiece } from './overrides.ts';
import type { RecordBase, RecordListName } from './records.ts';
import type { Frame, Setup } from './setup.ts';

/** Finds a frame by id, else by its exact name, else by its name whatever the case. */
export function findFrame(setup: Setup, idOrName: string): Result<Frame, readonly SetupIssue[]> {
  const byId = setup.frames.find((frame) => frame.id === idOrName);
  if (byId) return ok(byId);
  const exact = setup.frames.filter((frame) => frame.name === idOrName);
  const found =
    exact.length > 0 ? exact : setup.frames.filter((frame) => frame.name.toLowerCase() === idOrName.toLowerCase());
  if (found.length === 1 && found[0]) return ok(found[0]);
  const message =
    found.length === 0
      ? `There is no frame ${showValue(idOrName)}; this setup has ${setup.frames.map((frame) => showValue(frame.name)).join(', ')}.`
      : `${found.length} frames are named ${showValue(idOrName)}; ask by id: ${found.map((frame) => frame.id).join(', ')}.`;
  return fail([{ path: 'frames', message }]);
}

/**
 * Everything that one frame needs, with the frame's overrides applied and its hidden records left out. Records that
 * the frame does not override are the same objects as in the setup.
 */
export function resolveFrame(setup: Setup, idOrName: string): Result<FrameScene, readonly SetupIssue[]> {
  const found = findFrame(setup, idOrName);
  if (!found.ok) return found;
  const frame = found.value;
  const pieces = resolveList(setup.pieces, 'pieces', frame, setup, resolvePiece);
  if (!pieces.ok) return pieces;
  const fixtures = resolveList(setup.fixtures, 'fixtures', frame, setup, resolveFixture);
  if (!fixtures.ok) return fixtures;
  const grip = resolveList(setup.grip, 'grip', frame, setup, resolveGripItem);
  if (!grip.ok) return grip;
  return ok({
    pieces: pieces.value,
    fixtures: fixtures.value,
    grip: grip.value,
    camera: frame.camera,
    subject: setup.subject,
    ...(setup.turntable ? { turntable: leaveOutHidden(setup.turntable, frame) } : {}),
    turntableAngleDeg: frame.turntableAngleDeg,
  });
}

/** A turntable carries only what is there in the frame. */
function leaveOutHidden(turntable: Turntable, frame: Frame): Turntable {
  const carries = turntable.carries.filter((id) => !frame.hidden.includes(id));
  return carries.length === turntable.carries.length ? turntable : { ...turntable, carries };
}

function resolveList<R extends RecordBase>(
  records: readonly R[],
  list: RecordListName,
  frame: Frame,
  setup: Setup,
  resolve: (
    base: R,
    patch: Patch,
    place: { path: (string | number)[]; label: Frame },
  ) => Result<R, readonly SetupIssue[]>,
): Result<R[], readonly SetupIssue[]> {
  const resolved: R[] = [];
  const frameIndex = setup.frames.indexOf(frame);
  for (const record of records) {
    if (frame.hidden.includes(record.id)) continue;
    const at = frame.overrides.findIndex((override) => override.collection === list && override.id === record.id);
    const override = frame.overrides[at];
    if (!override) {
      resolved.push(record);
      continue;
    }
    const path = ['frames', frameIndex, 'overrides', at, 'patch'];
    const patched = resolve(record, override.patch, { path, label: frame });
    if (!patched.ok) return patched;
    resolved.push(patched.value);
  }
  return ok(resolved);
}
