import { describe, expect, it } from 'vitest';
import { applyChanges, type DocumentChange } from '../../../src/document/changes.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import { resolveFrame } from '../../../src/document/resolveFrame.ts';
import type { Setup } from '../../../src/document/setup.ts';
import { FIXTURE_PRESETS, fixtureFromPreset } from '../../../src/fixtures/catalog.ts';
import { keepDesks, shareDeskChanges } from '../../../src/views/session/keepDesks.ts';
import { routeChanges } from '../../../src/views/session/routeChanges.ts';
import { updateRecord } from '../../../src/views/session/updateRecord.ts';

const LIGHT = 'fixture:1';

function edited(setup: Setup, frameId: string, changes: readonly DocumentChange[]): Setup {
  const frame = setup.frames.find(({ id }) => id === frameId);
  const done = applyChanges(setup, routeChanges(frame, keepDesks(setup, frame, changes)));
  if (!done.ok) throw new Error(done.error[0]?.message);
  return done.value;
}

/** One light; frames 1 and 2 share the desk, frame 3 has its own. */
function threeFrames(): Setup {
  const base = emptySetup();
  const light = fixtureFromPreset(FIXTURE_PRESETS[0], {
    id: LIGHT,
    name: 'Key',
    positionM: [1, 1, 0],
    aimM: [0, 0, 0],
  });
  return edited(base, 'frame:1', [
    { op: 'add', collection: 'fixtures', record: light },
    { op: 'addFrame', frame: { ...base.frames[0], id: 'frame:2', name: 'Second' } },
    { op: 'addFrame', frame: { ...base.frames[0], id: 'frame:3', name: 'Third', ownDesk: true } },
  ]);
}

const dimsOf = (setup: Setup): number[] =>
  setup.frames.map(({ id }) => {
    const scene = resolveFrame(setup, id);
    if (!scene.ok) throw new Error('the frame resolves');
    return scene.value.fixtures[0].dimStops;
  });

const dim = (dimStops: number) => [updateRecord('fixtures', LIGHT, { dimStops })];

describe('a desk of its own', () => {
  it('takes a dimmer at -2 stops for its frame alone', () => {
    expect(dimsOf(edited(threeFrames(), 'frame:3', dim(-2)))).toEqual([0, 0, -2]);
  });

  it('stays at 0 and then at -2 stops while the shared desk goes to -1 and -3', () => {
    const shared = edited(threeFrames(), 'frame:1', dim(-1));
    expect(dimsOf(shared)).toEqual([-1, -1, 0]);
    const both = edited(edited(shared, 'frame:3', dim(-2)), 'frame:2', dim(-3));
    expect(dimsOf(both)).toEqual([-3, -3, -2]);
  });

  it('lets a place be shared: moved in one frame, the light has moved in all', () => {
    const moved = edited(threeFrames(), 'frame:3', [
      updateRecord('fixtures', LIGHT, { positionM: [0, 2, 0], dimStops: -1 }),
    ]);
    expect(moved.fixtures[0].positionM).toEqual([0, 2, 0]);
    expect(dimsOf(moved)).toEqual([0, 0, -1]);
  });

  it('is given up again: the light stands as on the shared desk', () => {
    const own = edited(edited(threeFrames(), 'frame:3', dim(-2)), 'frame:1', dim(-1));
    const shared = edited(own, 'frame:1', shareDeskChanges(own, own.frames[2]));
    expect(dimsOf(shared)).toEqual([-1, -1, -1]);
    expect(shared.frames[2].overrides).toEqual([]);
    expect(dimsOf(edited(shared, 'frame:3', dim(-4)))).toEqual([-4, -4, -4]);
  });
});
