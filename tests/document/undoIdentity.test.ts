import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DocumentChange } from '../../src/document/changes.ts';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import type { Setup } from '../../src/document/setup.ts';
import { createDocumentStore } from '../../src/document/store.ts';
import { sampleData, sampleSetup } from './sampleSetup.ts';

const SEED = 20240611;
const FIXTURE_IDS = ['fixture:key', 'fixture:back', 'fixture:a', 'fixture:b'];
const PIECE_IDS = ['piece:hero', 'piece:table', 'piece:c'];
const FRAME_IDS = ['frame:wide', 'frame:close', 'frame:d'];

const coordinate = fc.double({ min: -5, max: 5, noNaN: true });
const position = fc.tuple(coordinate, coordinate, coordinate);
const record = fc.constantFrom<[collection: 'pieces' | 'fixtures' | 'grip', id: string]>(
  ...FIXTURE_IDS.map((id): ['fixtures', string] => ['fixtures', id]),
  ...PIECE_IDS.map((id): ['pieces', string] => ['pieces', id]),
  ['grip', 'grip:card'],
);
const frameId = fc.constantFrom(...FRAME_IDS);

/** Many of these are refused in the state that they meet: that is part of the test. */
const change: fc.Arbitrary<DocumentChange> = fc.oneof(
  fc
    .tuple(record, position)
    .map(([[collection, id], positionM]) => ({ op: 'update', collection, id, patch: { positionM } }) as const),
  fc
    .tuple(fc.constantFrom(...FIXTURE_IDS), fc.integer({ min: -14, max: 2 }))
    .map(([id, dimStops]) => ({ op: 'update', collection: 'fixtures', id, patch: { dimStops } }) as const),
  record.map(([collection, id]) => ({ op: 'remove', collection, id }) as const),
  fc
    .constantFrom(...FIXTURE_IDS)
    .map((id) => ({ op: 'add', collection: 'fixtures', record: { ...sampleData().fixtures[1], id } }) as const),
  fc
    .tuple(record, fc.integer({ min: 0, max: 5 }))
    .map(([[collection, id], toIndex]) => ({ op: 'move', collection, id, toIndex }) as const),
  fc.string({ maxLength: 5 }).map((title) => ({ op: 'setTitle', title }) as const),
  fc
    .tuple(frameId, fc.integer({ min: -1, max: 4 }))
    .map(([id, toIndex]) => ({ op: 'moveFrame', id, toIndex }) as const),
  frameId.map((id) => ({ op: 'removeFrame', id }) as const),
  fc
    .tuple(frameId, fc.integer({ min: 0, max: 3 }))
    .map(([id, index]) => ({ op: 'addFrame', frame: { ...sampleData().frames[0], id }, index }) as const),
  fc
    .tuple(frameId, fc.double({ min: 10, max: 200, noNaN: true }))
    .map(([id, focalLengthMm]) => ({ op: 'update', collection: 'camera', id, patch: { focalLengthMm } }) as const),
  fc
    .tuple(frameId, record, position)
    .map(
      ([frame, [collection, id], aimM]) =>
        ({ op: 'override', frameId: frame, collection, id, patch: { aimM } }) as const,
    ),
  fc.tuple(frameId, record).map(([frame, [, id]]) => ({ op: 'clearOverride', frameId: frame, id }) as const),
  fc
    .tuple(frameId, record, fc.boolean())
    .map(([frame, [, id], hidden]) => ({ op: 'setHidden', frameId: frame, id, hidden }) as const),
  fc
    .option(fc.integer({ min: -1, max: 20 }))
    .map((rpm) => ({ op: 'updateTurntable', patch: rpm === null ? null : { rpm } }) as const),
  fc.string({ maxLength: 8 }).map((mood) => ({ op: 'updateBrief', patch: { mood } }) as const),
);

const command = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.array(change, { minLength: 1, maxLength: 2 }).map((changes) => ({ do: 'apply', changes }) as const),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.array(fc.array(change, { minLength: 1, maxLength: 2 }), { maxLength: 5 }), fc.boolean())
      .map(([updates, keep]) => ({ do: 'drag', updates, keep }) as const),
  },
  { weight: 1, arbitrary: fc.constant({ do: 'undo' } as const) },
  { weight: 1, arbitrary: fc.constant({ do: 'redo' } as const) },
);

function expectSameRecords(a: Setup, b: Setup): void {
  for (const list of ['pieces', 'fixtures', 'grip', 'frames'] as const) {
    expect(a[list].length).toBe(b[list].length);
    a[list].forEach((item, i) => {
      expect(item).toBe(b[list][i]);
    });
  }
}

describe('undo and redo over random command sequences', () => {
  it('undo after do is the identity, redo after undo too, over 300 sequences of up to 25 commands [H8]', () => {
    let applied = 0;
    let refused = 0;
    fc.assert(
      fc.property(fc.array(command, { maxLength: 25, size: 'max' }), (commands) => {
        const store = createDocumentStore(sampleSetup());
        const start = store.getState().setup;
        for (const step of commands) {
          const before = store.getState();
          if (step.do === 'apply') {
            const outcome = store.apply('apply', step.changes);
            if (outcome.ok) applied += 1;
            else {
              refused += 1;
              expect(store.getState()).toBe(before);
            }
            if (store.getState().revision !== before.revision) {
              const after = store.getState().setup;
              store.undo();
              expect(store.getState().setup).toEqual(before.setup);
              expectSameRecords(store.getState().setup, before.setup);
              store.redo();
              expect(store.getState().setup).toEqual(after);
              expectSameRecords(store.getState().setup, after);
            }
          } else if (step.do === 'drag') {
            store.begin('drag');
            for (const changes of step.updates) store.update(changes);
            if (step.keep) store.commit();
            else {
              store.cancel();
              expect(store.getState().setup).toBe(before.setup);
            }
          } else if (step.do === 'undo') store.undo();
          else store.redo();
        }
        const end = store.getState().setup;
        let undone = 0;
        while (store.undo()) undone += 1;
        expect(store.getState().setup).toEqual(start);
        expectSameRecords(store.getState().setup, start);
        for (; undone > 0; undone--) expect(store.redo()).toBe(true);
        expect(store.getState().setup).toEqual(end);
        expectSameRecords(store.getState().setup, end);
      }),
      { seed: SEED, numRuns: 300 },
    );
    // The mix must exercise both outcomes, or the property says little.
    expect(applied).toBeGreaterThan(300);
    expect(refused).toBeGreaterThan(300);
  });

  it('gives a document that saves and opens to exactly itself after any sequence [F2]', () => {
    fc.assert(
      fc.property(fc.array(change, { maxLength: 15, size: 'max' }), (changes) => {
        const store = createDocumentStore(sampleSetup());
        for (const one of changes) store.apply('one', [one]);
        const { setup } = store.getState();
        const text = serializeSetup(setup);
        const opened = parseSetup(text);
        expect(opened.ok).toBe(true);
        if (!opened.ok) return;
        expect(opened.value.setup).toEqual(setup);
        expect(serializeSetup(opened.value.setup)).toBe(text);
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});
