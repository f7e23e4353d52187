import { describe, expect, it } from 'vitest';
import { groupOf, isLocked, newGroupId } from '../../src/document/arrangement.ts';
import { applyChanges, type DocumentChange } from '../../src/document/changes.ts';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import type { Setup } from '../../src/document/setup.ts';
import { createDocumentStore } from '../../src/document/store.ts';
import { validateSetup } from '../../src/document/validate.ts';
import { sampleSetup } from './sampleSetup.ts';

const changed = (setup: Setup, ...changes: DocumentChange[]): Setup => {
  const applied = applyChanges(setup, changes);
  if (!applied.ok) throw new Error(applied.error[0]?.message);
  return applied.value;
};
const setup = sampleSetup();
const [first, second, third] = [...setup.pieces, ...setup.fixtures, ...setup.grip]
  .map(({ id }) => id)
  .filter((id) => id !== setup.subject.pieceId);

describe('groups', () => {
  it('[C9] hold 2 records; a record that joins another group leaves its own, and a group of 1 is dissolved', () => {
    const grouped = changed(setup, { op: 'group', id: 'group:1', name: 'Left', ids: [first, second] });
    expect(groupOf(grouped, first)?.name).toBe('Left');
    expect(newGroupId(grouped)).toBe('group:2');
    const moved = changed(grouped, { op: 'group', id: 'group:2', name: 'Right', ids: [second, third] });
    expect(groupOf(moved, second)?.name).toBe('Right');
    expect(groupOf(moved, first)).toBeUndefined();
    expect(moved.arrangement?.groups).toHaveLength(1);
  });

  it('[C9] refuses a group of 1, one of things that are not there, and taking apart what is no group', () => {
    expect(applyChanges(setup, [{ op: 'group', id: 'group:1', name: 'One', ids: [first] }]).ok).toBe(false);
    expect(applyChanges(setup, [{ op: 'group', id: 'group:1', name: 'Air', ids: [first, 'piece:none'] }]).ok).toBe(
      false,
    );
    expect(applyChanges(setup, [{ op: 'ungroup', id: 'group:9' }]).ok).toBe(false);
  });

  it('gives the very data of before once it is taken apart', () => {
    const grouped = changed(setup, { op: 'group', id: 'group:1', name: 'Left', ids: [first, second] });
    expect(changed(grouped, { op: 'ungroup', id: 'group:1' })).toEqual(setup);
  });
});

describe('locks', () => {
  it('are set and taken off, for records and for the camera of a frame', () => {
    const frameId = setup.frames[0].id;
    const locked = changed(setup, { op: 'setLocked', ids: [first, frameId], locked: true });
    expect([isLocked(locked, first), isLocked(locked, frameId), isLocked(locked, second)]).toEqual([true, true, false]);
    expect(changed(locked, { op: 'setLocked', ids: [first, frameId], locked: false })).toEqual(setup);
    expect(changed(setup, { op: 'setLocked', ids: [first], locked: false })).toBe(setup);
  });

  it('[C10] go with their record, and so does its place in a group', () => {
    const held = changed(
      setup,
      { op: 'setLocked', ids: [first], locked: true },
      { op: 'group', id: 'group:1', name: 'Left', ids: [first, second] },
    );
    const collection = (['pieces', 'fixtures', 'grip'] as const).find((list) =>
      held[list].some((record: { id: string }) => record.id === first),
    );
    if (!collection) throw new Error('the record is in a list');
    const gone = changed(held, { op: 'remove', collection, id: first });
    expect(gone.arrangement).toBeUndefined();
    expect(validateSetup(gone).ok).toBe(true);
  });
});

describe('an arrangement', () => {
  it('[H8] is undone and done again, and [F2] comes back from a file as it was', () => {
    const store = createDocumentStore(setup);
    store.apply('Group', [{ op: 'group', id: 'group:1', name: 'Left', ids: [first, second] }]);
    const grouped = store.getState().setup;
    const parsed = parseSetup(serializeSetup(grouped));
    expect(parsed.ok && parsed.value.setup).toEqual(grouped);
    store.undo();
    expect(store.getState().setup).toEqual(setup);
    store.redo();
    expect(store.getState().setup).toEqual(grouped);
  });

  it('is refused from a file where it names what is not there or one record twice', () => {
    const faulty = (arrangement: Setup['arrangement']) => validateSetup({ ...setup, arrangement });
    expect(faulty({ groups: [], locked: ['piece:none'] }).ok).toBe(false);
    const twice = [
      { id: 'group:1', name: 'A', ids: [first, second] },
      { id: 'group:2', name: 'B', ids: [second, third] },
    ];
    expect(faulty({ groups: twice, locked: [] }).ok).toBe(false);
  });
});
