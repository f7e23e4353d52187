import { describe, expect, it } from 'vitest';
import { emptySetup } from '../../src/document/defaults.ts';
import { createDocumentStore } from '../../src/document/store.ts';
import { sampleSetup } from './sampleSetup.ts';

const dim = (id: string, dimStops: number) =>
  ({ op: 'update', collection: 'fixtures', id, patch: { dimStops } }) as const;

describe('document store', () => {
  it('makes one undoable step of an apply, with its label [H1]', () => {
    const store = createDocumentStore(sampleSetup());
    const before = store.getState().setup;
    expect(store.apply('Dim the key', [dim('fixture:key', -2)]).ok).toBe(true);
    expect(store.getState().setup.fixtures[0].dimStops).toBe(-2);
    expect(store.getState()).toMatchObject({ revision: 1, canUndo: true, canRedo: false, undoLabel: 'Dim the key' });
    expect(store.undo()).toBe(true);
    expect(store.getState().setup).toEqual(before);
    expect(store.getState()).toMatchObject({ canUndo: false, canRedo: true, redoLabel: 'Dim the key' });
    expect(store.redo()).toBe(true);
    expect(store.getState().setup.fixtures[0].dimStops).toBe(-2);
  });

  it('keeps the identity of every record that a change does not touch [D4]', () => {
    const store = createDocumentStore(sampleSetup());
    const before = store.getState().setup;
    store.apply('Dim', [dim('fixture:key', -2)]);
    const after = store.getState().setup;
    expect(after.pieces).toBe(before.pieces);
    expect(after.frames).toBe(before.frames);
    expect(after.fixtures[1]).toBe(before.fixtures[1]);
    expect(after.fixtures[0].positionM).toBe(before.fixtures[0].positionM);
    store.undo();
    expect(store.getState().setup.fixtures[0]).toBe(before.fixtures[0]);
  });

  it('makes no step of a change that changes nothing [H2]', () => {
    const store = createDocumentStore(sampleSetup());
    const before = store.getState().setup;
    store.apply('Same', [dim('fixture:key', 0)]);
    store.apply('There and back', [dim('fixture:key', -3), dim('fixture:key', 0)]);
    expect(store.getState()).toMatchObject({ revision: 0, canUndo: false });
    expect(store.getState().setup).toBe(before);
  });

  it('refuses a bad change whole, says why, and leaves everything untouched [D2]', () => {
    const store = createDocumentStore(sampleSetup());
    const before = store.getState();
    const outcome = store.apply('Bad', [
      dim('fixture:back', -1),
      { op: 'update', collection: 'fixtures', id: 'fixture:key', patch: { output: { value: -5 } } },
    ]);
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.error).toEqual([
      {
        path: 'fixtures[0].output.value',
        recordId: 'fixture:key',
        message: 'fixtures[0] "Key": output.value must be more than 0; it is -5.',
      },
    ]);
    expect(store.getState()).toBe(before);
  });

  it('squashes a drag of 50 updates into one step [H3]', () => {
    const store = createDocumentStore(sampleSetup());
    const before = store.getState().setup;
    store.begin('Move the key');
    for (let i = 1; i <= 50; i++) {
      store.update([
        { op: 'update', collection: 'fixtures', id: 'fixture:key', patch: { positionM: [i / 100, 1, 0] } },
      ]);
    }
    expect(store.getState()).toMatchObject({ dragLabel: 'Move the key', canUndo: true, undoLabel: 'Move the key' });
    store.commit();
    expect(store.getState().dragLabel).toBeUndefined();
    expect(store.getState().setup.fixtures[0].positionM).toEqual([0.5, 1, 0]);
    store.undo();
    expect(store.getState().setup).toEqual(before);
    expect(store.getState().canUndo).toBe(false);
  });

  it('goes back to the very mark when a drag is cancelled, and keeps what could be redone [H4]', () => {
    const store = createDocumentStore(sampleSetup());
    store.apply('Dim', [dim('fixture:key', -2)]);
    store.undo();
    const mark = store.getState().setup;
    store.begin('Move');
    store.update([dim('fixture:key', -1)]);
    store.cancel();
    expect(store.getState().setup).toBe(mark);
    expect(store.getState()).toMatchObject({ canUndo: false, canRedo: true, redoLabel: 'Dim' });
  });

  it('cancels the drag when undo is asked for within it [H4]', () => {
    const store = createDocumentStore(sampleSetup());
    store.apply('Dim', [dim('fixture:key', -2)]);
    const mark = store.getState().setup;
    store.begin('Move');
    store.update([dim('fixture:key', -4)]);
    expect(store.undo()).toBe(true);
    expect(store.getState().setup).toBe(mark);
    expect(store.getState().undoLabel).toBe('Dim');
  });

  it('leaves no step of a drag that ends where it began [H2]', () => {
    const store = createDocumentStore(sampleSetup());
    const mark = store.getState().setup;
    store.begin('Move');
    store.update([dim('fixture:key', -1)]);
    store.update([dim('fixture:key', 0)]);
    store.commit();
    expect(store.getState().setup).toBe(mark);
    expect(store.getState().canUndo).toBe(false);
  });

  it('keeps the last good state of a drag when an update is refused', () => {
    const store = createDocumentStore(sampleSetup());
    store.begin('Dim');
    store.update([dim('fixture:key', -1)]);
    expect(store.update([dim('fixture:key', 5)]).ok).toBe(false);
    store.commit();
    expect(store.getState().setup.fixtures[0].dimStops).toBe(-1);
  });

  it('commits the open drag before another step [H5]', () => {
    const store = createDocumentStore(sampleSetup());
    store.begin('Move');
    store.update([dim('fixture:key', -1)]);
    store.apply('Rename', [{ op: 'setTitle', title: 'Other' }]);
    expect(store.getState()).toMatchObject({ undoLabel: 'Rename' });
    store.undo();
    expect(store.getState()).toMatchObject({ undoLabel: 'Move', canUndo: true });
  });

  it('throws on an update outside a drag, which only code can cause', () => {
    const store = createDocumentStore(sampleSetup());
    expect(() => store.update([dim('fixture:key', -1)])).toThrow(/begin/);
  });

  it('starts a new history when another document is loaded [H6]', () => {
    const store = createDocumentStore(sampleSetup());
    store.apply('Dim', [dim('fixture:key', -2)]);
    expect(store.load(emptySetup()).ok).toBe(true);
    expect(store.getState()).toMatchObject({ canUndo: false, canRedo: false, loadCount: 1, revision: 2 });
    expect(store.undo()).toBe(false);
  });

  it('keeps the open document when the one to load is bad [D2]', () => {
    const store = createDocumentStore(sampleSetup());
    const before = store.getState();
    expect(store.load({ ...emptySetup(), title: '' }).ok).toBe(false);
    expect(store.getState()).toBe(before);
  });

  it('edits nothing while read-only, and gives the reason [H7]', () => {
    const store = createDocumentStore(emptySetup());
    store.load(sampleSetup(), { readOnlyReason: 'From a newer version.' });
    const { setup } = store.getState();
    expect(store.apply('Dim', [dim('fixture:key', -2)])).toEqual({
      ok: false,
      error: [{ path: '', message: 'From a newer version.' }],
    });
    expect(store.begin('Move').ok).toBe(false);
    expect(store.getState().setup).toBe(setup);
    store.load(sampleSetup());
    expect(store.getState().readOnlyReason).toBeUndefined();
  });

  it('gives out data that nobody can edit behind the history [D1]', () => {
    const { setup } = createDocumentStore(sampleSetup()).getState();
    expect(() => setup.fixtures.push(setup.fixtures[0])).toThrow(TypeError);
    expect(() => {
      setup.fixtures[0].positionM[0] = 3;
    }).toThrow(TypeError);
    const store = createDocumentStore(sampleSetup());
    store.apply('Dim', [dim('fixture:key', -2)]);
    const after = store.getState().setup;
    for (const part of [after, after.fixtures, after.fixtures[0]]) expect(Object.isFrozen(part)).toBe(true);
  });
});
