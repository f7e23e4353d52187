import { describe, expect, it } from 'vitest';
import { applyChanges, type DocumentChange } from '../../src/document/changes.ts';
import { emptySetup, newId } from '../../src/document/defaults.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Setup } from '../../src/document/setup.ts';
import { sampleData, sampleSetup } from './sampleSetup.ts';

function applied(setup: Setup, ...changes: DocumentChange[]): Setup {
  const result = applyChanges(setup, changes);
  if (!result.ok) throw new Error(result.error.map((issue) => issue.message).join('\n'));
  return result.value;
}

function refusal(setup: Setup, ...changes: DocumentChange[]): string {
  const result = applyChanges(setup, changes);
  if (result.ok) throw new Error('was accepted');
  return result.error.map((issue) => issue.message).join('\n');
}

describe('changes', () => {
  it('patches by JSON Merge Patch: one field of a nested object, null to take one away [C1]', () => {
    const setup = applied(
      sampleSetup(),
      { op: 'update', collection: 'fixtures', id: 'fixture:key', patch: { barnDoors: { topDeg: 30 } } },
      { op: 'update', collection: 'pieces', id: 'piece:hero', patch: { drink: null } },
    );
    expect(setup.fixtures[0]).toMatchObject({ barnDoors: { lengthM: 0.1, topDeg: 30, bottomDeg: 60 } });
    expect(setup.pieces[0]).not.toHaveProperty('drink');
  });

  it('drops what a record of another unit or kind no longer has, but not a field misspelt in the patch [C2]', () => {
    const lumens = { unit: 'lumens', value: 900 };
    const setup = applied(sampleSetup(), {
      op: 'update',
      collection: 'fixtures',
      id: 'fixture:back',
      patch: { output: lumens },
    });
    expect(setup.fixtures[1].output).toEqual(lumens);
    expect(
      refusal(sampleSetup(), { op: 'update', collection: 'fixtures', id: 'fixture:back', patch: { dimstops: -1 } }),
    ).toBe('fixtures[1] "Back spot": dimstops is not a field that belongs here; check its spelling or leave it out.');
  });

  it('lets nobody change an id, nor give one twice [D5]', () => {
    const rename = { op: 'update', collection: 'grip', id: 'grip:card', patch: { id: 'grip:other' } } as const;
    expect(refusal(sampleSetup(), rename)).toMatch(/grip\[0\] "White card": id must stay as it is/);
    const twice = {
      op: 'add',
      collection: 'pieces',
      record: { ...sampleData().pieces[1], id: 'fixture:key' },
    } as const;
    expect(refusal(sampleSetup(), twice)).toMatch(/"fixture:key" is taken by pieces\[2\]/);
  });

  it('takes a removed record out of overrides, hidden lists and the turntable in the same step [C3]', () => {
    const withSecond = applied(
      sampleSetup(),
      { op: 'add', collection: 'pieces', record: { ...sampleData().pieces[0], id: 'piece:second' } },
      { op: 'updateTurntable', patch: { carries: ['piece:hero', 'piece:second'] } },
      { op: 'setHidden', frameId: 'frame:wide', id: 'piece:second', hidden: true },
    );
    const setup = applied(
      withSecond,
      { op: 'remove', collection: 'fixtures', id: 'fixture:key' },
      { op: 'remove', collection: 'grip', id: 'grip:card' },
      { op: 'remove', collection: 'pieces', id: 'piece:second' },
    );
    expect(setup.frames[1]).toMatchObject({ overrides: [], hidden: [] });
    expect(setup.frames[0].hidden).toEqual([]);
    expect(setup.turntable?.carries).toEqual(['piece:hero']);
  });

  it('keeps the hero: it can be removed only after another is named [C4]', () => {
    const remove = { op: 'remove', collection: 'pieces', id: 'piece:hero' } as const;
    expect(refusal(sampleSetup(), remove)).toMatch(
      /subject\.pieceId names "piece:hero", which is not among the pieces; give the id of the hero\./,
    );
    const setup = applied(sampleSetup(), { op: 'updateSubject', patch: { pieceId: 'piece:table' } }, remove);
    expect(setup.subject.pieceId).toBe('piece:table');
  });

  it('edits the camera of the frame whose id is given, and only that one [C5]', () => {
    const before = sampleSetup();
    const setup = applied(before, { op: 'update', collection: 'camera', id: 'frame:close', patch: { iso: 800 } });
    expect(setup.frames[1].camera.iso).toBe(800);
    expect(setup.frames[0]).toBe(before.frames[0]);
    expect(refusal(before, { op: 'update', collection: 'camera', id: 'frame:close', patch: { iso: 0 } })).toBe(
      'frames[1] "Close-up": camera.iso must be at least 1; it is 0.',
    );
    expect(refusal(before, { op: 'remove', collection: 'camera', id: 'frame:close' })).toMatch(/exactly one camera/);
    expect(refusal(before, { op: 'update', collection: 'camera', id: 'nowhere', patch: {} })).toMatch(
      /no frame "nowhere"/,
    );
  });

  it('changes the base record for every frame that does not override the field [C6]', () => {
    const setup = applied(sampleSetup(), {
      op: 'update',
      collection: 'fixtures',
      id: 'fixture:key',
      patch: { dimStops: -3, cctK: 3200 },
    });
    const close = resolveFrame(setup, 'Close-up');
    if (!close.ok) throw new Error('not resolved');
    expect(close.value.fixtures[0]).toMatchObject({ dimStops: -1, cctK: 3200 });
  });

  it('stores an override as the least that differs from the base, and drops it when nothing does [C7]', () => {
    const override = (patch: Record<string, unknown>) =>
      ({ op: 'override', frameId: 'frame:close', collection: 'fixtures', id: 'fixture:key', patch }) as const;
    const more = applied(sampleSetup(), override({ output: { value: 500 }, barnDoors: null }));
    expect(more.frames[1].overrides[0].patch).toEqual({ dimStops: -1, output: { value: 500 }, barnDoors: null });
    expect(more.fixtures).toEqual(sampleSetup().fixtures);
    const scene = resolveFrame(more, 'frame:close');
    expect(scene.ok && scene.value.fixtures[0]).toMatchObject({ output: { unit: 'lumens', value: 500 }, dimStops: -1 });
    expect(scene.ok && 'barnDoors' in scene.value.fixtures[0]).toBe(false);
    const back = applied(
      more,
      override({ dimStops: 0, output: { value: 3000 }, barnDoors: sampleData().fixtures[0].barnDoors }),
    );
    expect(back.frames[1].overrides).toEqual([]);
    expect(
      applied(more, { op: 'clearOverride', frameId: 'frame:close', id: 'fixture:key' }).frames[1].overrides,
    ).toEqual([]);
    expect(refusal(more, override({ kind: 'spot' }))).toMatch(/patch\.kind must not differ from frame to frame/);
    expect(refusal(more, override({ output: { value: -1 } }))).toBe(
      'frames[1] "Close-up": overrides[0].patch.output.value must be more than 0; it is -1.',
    );
  });

  it('refuses a base edit that breaks an override of it, naming the override', () => {
    const setup = applied(sampleSetup(), {
      op: 'override',
      frameId: 'frame:close',
      collection: 'fixtures',
      id: 'fixture:key',
      patch: { barnDoors: { topDeg: 20 } },
    });
    expect(
      refusal(setup, { op: 'update', collection: 'fixtures', id: 'fixture:key', patch: { barnDoors: null } }),
    ).toMatch(/frames\[1\] "Close-up": overrides\[0\]\.patch\.barnDoors\.lengthM is missing; give a number/);
  });

  it('adds, moves and removes frames, and keeps at least one [C8]', () => {
    const frame = { ...sampleData().frames[0], id: 'frame:new', name: 'Detail' };
    const added = applied(sampleSetup(), { op: 'addFrame', frame, index: 1 });
    expect(added.frames.map((one) => one.id)).toEqual(['frame:wide', 'frame:new', 'frame:close']);
    const moved = applied(added, { op: 'moveFrame', id: 'frame:new', toIndex: 9 });
    expect(moved.frames.map((one) => one.id)).toEqual(['frame:wide', 'frame:close', 'frame:new']);
    const one = applied(moved, { op: 'removeFrame', id: 'frame:new' }, { op: 'removeFrame', id: 'frame:wide' });
    expect(refusal(one, { op: 'removeFrame', id: 'frame:close' })).toBe('frames must have at least 1 entry; it has 0.');
  });

  it('puts in and takes away the turntable', () => {
    const without = applied(sampleSetup(), { op: 'updateTurntable', patch: null });
    expect(without).not.toHaveProperty('turntable');
    expect(refusal(without, { op: 'updateTurntable', patch: { rpm: 3 } })).toMatch(/turntable\.centreM is missing/);
    const again = applied(without, {
      op: 'updateTurntable',
      patch: { centreM: [0, 0, 0], diameterM: 0.2, rpm: 3, carries: [] },
    });
    expect(again.turntable?.thicknessM).toBe(0.02);
  });

  it('refuses more fixtures than 32', () => {
    const many = Array.from(
      { length: 31 },
      (_, i): DocumentChange => ({
        op: 'add',
        collection: 'fixtures',
        record: { ...sampleData().fixtures[1], id: `fixture:${i}` },
      }),
    );
    expect(refusal(sampleSetup(), ...many)).toBe('fixtures must have at most 32 entries; it has 33.');
  });

  it('gives the lowest free number as a new id, the same each time', () => {
    const setup = emptySetup();
    expect(newId(setup, 'piece')).toBe('piece:3');
    expect(newId(setup, 'fixture')).toBe('fixture:1');
    const glass = { ...sampleData().pieces[0], id: 'piece:3' };
    expect(newId(applied(setup, { op: 'add', collection: 'pieces', record: glass }), 'piece')).toBe('piece:4');
  });
});

describe('resolveFrame', () => {
  it('leaves hidden records out and keeps the identity of what the frame does not override [R1]', () => {
    const setup = sampleSetup();
    const scene = resolveFrame(setup, 'close-UP');
    if (!scene.ok) throw new Error('not resolved');
    expect(scene.value.grip).toEqual([]);
    expect(scene.value.pieces[0]).toBe(setup.pieces[0]);
    expect(scene.value.camera).toBe(setup.frames[1].camera);
    const again = resolveFrame(setup, 'frame:close');
    expect(again.ok && again.value.fixtures[0]).toBe(scene.value.fixtures[0]);
  });

  it('carries on the turntable only what is not hidden [R2]', () => {
    const setup = applied(sampleSetup(), { op: 'setHidden', frameId: 'frame:wide', id: 'piece:hero', hidden: true });
    const scene = resolveFrame(setup, 'Wide');
    expect(scene.ok && scene.value.turntable?.carries).toEqual([]);
  });

  it('names the frames there are when asked for another, and asks for the id when two share a name [R3]', () => {
    const missing = resolveFrame(sampleSetup(), 'Top shot');
    expect(!missing.ok && missing.error[0].message).toBe(
      'There is no frame "Top shot"; this setup has "Wide", "Close-up".',
    );
    const twins = applied(sampleSetup(), { op: 'updateFrame', id: 'frame:close', patch: { name: 'Wide' } });
    const ambiguous = resolveFrame(twins, 'Wide');
    expect(!ambiguous.ok && ambiguous.error[0].message).toBe(
      '2 frames are named "Wide"; ask by id: frame:wide, frame:close.',
    );
  });
});
