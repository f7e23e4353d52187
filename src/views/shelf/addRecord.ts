import type { CollectionName, RecordChange } from '../../analysis/contracts.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { newId } from '../../document/defaults.ts';
import { createMergePatch } from '../../document/mergePatch.ts';
import type { Setup } from '../../document/setup.ts';
import { type FixturePreset, fixtureFromPreset, type GripPreset, gripFromPreset } from '../../fixtures/catalog.ts';
import type { ShelfGroup, ShelfItem } from '../../scene/pieceShelf.ts';
import { documentStore, selectRecord, updateRecord } from '../session/index.ts';
import { freeName } from './freeName.ts';

/** Where a new light first stands: on the right, above and a little behind, clear of the usual picture. */
const LIGHT_START_M: Vec3 = [0.7, 0.7, -0.3];
const GRIP_START_M: Vec3 = [0.45, 0.25, 0.1];
const PIECE_START_M: Vec3 = [0.18, 0, 0];
const PIECE_STEP_M = 0.12;
const MOST_STEPS = 20;

export function addFixture(preset: FixturePreset): void {
  const { setup } = documentStore.getState();
  const id = newId(setup, 'fixture');
  const name = freeName(setup, preset.label);
  add('fixtures', fixtureFromPreset(preset, { id, name, positionM: [...LIGHT_START_M], aimM: aimOf(setup) }));
}

export function addGrip(preset: GripPreset): void {
  const { setup } = documentStore.getState();
  const id = newId(setup, 'grip');
  const name = freeName(setup, preset.label);
  add('grip', gripFromPreset(preset, { id, name, positionM: [...GRIP_START_M], aimM: aimOf(setup) }));
}

/**
 * A piece from the shelf. Small things that would stand in the hero stand beside it. A table top goes onto the table that
 * there is: two tables in one place are none.
 */
export function addShelfItem(item: ShelfItem): void {
  const { setup } = documentStore.getState();
  const piece = item.make(newId(setup, 'piece'));
  const table = piece.kind === 'tabletop' ? setup.pieces.find(({ kind }) => kind === 'tabletop') : undefined;
  if (piece.kind === 'tabletop' && table?.kind === 'tabletop') {
    const patch = { name: piece.name, finish: createMergePatch(table.finish, piece.finish) };
    const laid = documentStore.apply(`Table of ${piece.name}`, [updateRecord('pieces', table.id, patch)]);
    if (laid.ok) selectRecord(table.id);
    return;
  }
  const beside = BESIDE_THE_HERO.includes(item.group) && piece.positionM.every((value) => value === 0);
  add('pieces', {
    ...piece,
    name: freeName(setup, piece.name),
    ...(beside ? { positionM: freePlace(setup) } : {}),
  });
}

const BESIDE_THE_HERO: readonly ShelfGroup[] = ['glasses', 'drinks', 'ice', 'dressing'];

/** To the right of the hero, a step further for each piece that stands there already. */
function freePlace(setup: Setup): [number, number, number] {
  const [x, y, z] = PIECE_START_M;
  const taken = (atX: number) =>
    setup.pieces.some(({ positionM }) => Math.hypot(positionM[0] - atX, positionM[2] - z) < 0.05);
  let step = 0;
  while (taken(x + step * PIECE_STEP_M) && step < MOST_STEPS) step += 1;
  return [Number((x + step * PIECE_STEP_M).toFixed(4)), y, z];
}

function add(collection: CollectionName, record: Extract<RecordChange, { op: 'add' }>['record']): void {
  const added = documentStore.apply(`Add ${String(record.name)}`, [{ op: 'add', collection, record }]);
  if (added.ok) selectRecord(record.id);
}

const aimOf = (setup: Setup): [number, number, number] => [...setup.subject.meterPointM];
