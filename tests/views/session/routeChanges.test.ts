import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../../src/document/changes.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import { resolveFrame } from '../../../src/document/resolveFrame.ts';
import type { Setup } from '../../../src/document/setup.ts';
import { routeChanges } from '../../../src/views/session/routeChanges.ts';
import { updateRecord } from '../../../src/views/session/updateRecord.ts';

/** Two frames; the second turns the highball by 30 degrees. */
function setupWithOverride(): Setup {
  const base = emptySetup();
  const changed = applyChanges(base, [
    { op: 'addFrame', frame: { ...base.frames[0], id: 'frame:2', name: 'Second' } },
    { op: 'override', frameId: 'frame:2', collection: 'pieces', id: 'piece:1', patch: { headingDeg: 30 } },
  ]);
  if (!changed.ok) throw new Error(changed.error[0]?.message);
  return changed.value;
}

const headingIn = (setup: Setup, frameId: string): number => {
  const scene = resolveFrame(setup, frameId);
  if (!scene.ok) throw new Error('the frame resolves');
  return scene.value.pieces[0].headingDeg;
};

const apply = (setup: Setup, frameId: string, patch: Record<string, unknown>): Setup => {
  const frame = setup.frames.find(({ id }) => id === frameId);
  const changed = applyChanges(setup, routeChanges(frame, [updateRecord('pieces', 'piece:1', patch)]));
  if (!changed.ok) throw new Error(changed.error[0]?.message);
  return changed.value;
};

describe('edits in a frame that overrides the field', () => {
  it('changes the frame that is looked at and leaves the other frame at 0 degrees', () => {
    const edited = apply(setupWithOverride(), 'frame:2', { headingDeg: 45 });
    expect([headingIn(edited, 'frame:1'), headingIn(edited, 'frame:2')]).toEqual([0, 45]);
  });

  it('changes the shared record from a frame without an override, and the overriding frame keeps its 30 degrees', () => {
    const edited = apply(setupWithOverride(), 'frame:1', { headingDeg: 45 });
    expect([headingIn(edited, 'frame:1'), headingIn(edited, 'frame:2')]).toEqual([45, 30]);
  });

  it('splits a patch of one overridden and one shared field between the two', () => {
    const edited = apply(setupWithOverride(), 'frame:2', { headingDeg: 60, name: 'Tall glass' });
    expect(edited.pieces[0].name).toBe('Tall glass');
    expect([headingIn(edited, 'frame:1'), headingIn(edited, 'frame:2')]).toEqual([0, 60]);
  });
});
