import { expect, test } from 'vitest';
import { emptySetup } from '../../../src/document/defaults.ts';
import { followHero } from '../../../src/views/session/followHero.ts';
import { updateRecord } from '../../../src/views/session/updateRecord.ts';

const setup = emptySetup();
const frame = setup.frames[0];

test('the meter point goes along when the hero is moved 0.2 m right and 0.05 m up', () => {
  const changes = followHero(setup, frame, [updateRecord('pieces', 'piece:1', { positionM: [0.2, 0.05, 0] })]);
  expect(changes.at(-1)).toEqual({ op: 'updateSubject', patch: { meterPointM: [0.2, 0.125, 0] } });
});

test('it stays where it is while the table is moved, the hero is turned, or it is set itself', () => {
  const table = [updateRecord('pieces', 'piece:2', { positionM: [0.2, 0, 0] })];
  expect(followHero(setup, frame, table)).toBe(table);
  const turned = [updateRecord('pieces', 'piece:1', { headingDeg: 30 })];
  expect(followHero(setup, frame, turned)).toBe(turned);
  const both = [
    updateRecord('pieces', 'piece:1', { positionM: [0.2, 0, 0] }),
    { op: 'updateSubject', patch: { meterPointM: [0, 1, 0] } } as const,
  ];
  expect(followHero(setup, frame, both)).toBe(both);
});

test('it stays where the frame puts the hero somewhere of its own', () => {
  const own = {
    ...frame,
    overrides: [{ collection: 'pieces' as const, id: 'piece:1', patch: { positionM: [0, 0, 0.1] } }],
  };
  const changes = [updateRecord('pieces', 'piece:1', { positionM: [0.2, 0, 0] })];
  expect(followHero(setup, own, changes)).toBe(changes);
});
