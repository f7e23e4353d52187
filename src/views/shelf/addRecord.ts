import type { CollectionName, RecordChange } from '../../analysis/contracts.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { newId } from '../../document/defaults.ts';
import { createMergePatch } from '../../document/mergePatch.ts';
import type { Setup } from '../../document/setup.ts';
import { hasStandIn, STAND_IN_ID } from '../../document/starting/index.ts';
import { type FixturePreset, fixtureFromPreset, type GripPreset, gripFromPreset } from '../../fixtures/catalog.ts';
import type { ShelfGroup, ShelfItem } from '../../scene/pieceShelf.ts';
import type { Piece } from '../../scene/records.ts';
import { documentStore, selectRecord, sessionStore, updateRecord } from '../session/index.ts';
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
 * A piece from the shelf, put where it belongs. The first glass takes the place of the stand-in; a drink is poured into the
 * empty glass that is selected; a table top goes onto the table that there is (two tables in one place are none); a sheet or
 * a sweep lies on the table, which goes down by as much, so that what stands on it stays where it is; small things that
 * would stand in the hero stand beside it.
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
  if (piece.kind === 'glass' && item.group !== 'glasses' && pourInto(setup, piece)) return;
  if (piece.kind === 'glass' && hasStandIn(setup)) {
    takeStandInPlace(setup, piece);
    return;
  }
  if ((piece.kind === 'sheet' || piece.kind === 'sweep') && table === undefined) {
    layOnTable(setup, piece);
    return;
  }
  const beside = BESIDE_THE_HERO.includes(item.group) && piece.positionM.every((value) => value === 0);
  add('pieces', {
    ...piece,
    name: freeName(setup, piece.name),
    ...(beside ? { positionM: freePlace(setup) } : {}),
  });
}

type Glass = Extract<Piece, { kind: 'glass' }>;

/** Pours what is in one glass into the empty one that is selected; false when there is none. */
function pourInto(setup: Setup, from: Glass): boolean {
  const { selectedId } = sessionStore.getState();
  const glass = setup.pieces.find(({ id }) => id === selectedId);
  if (glass?.kind !== 'glass' || glass.drink || !from.drink) return false;
  const { drink, ice, garnish } = from;
  const fits = glass.profile.shape === from.profile.shape;
  const patch = { name: from.name, drink, ...(fits && ice ? { ice } : {}), ...(fits && garnish ? { garnish } : {}) };
  return documentStore.apply(`Pour ${drink.name}`, [updateRecord('pieces', glass.id, patch)]).ok;
}

/** The glass stands where the stand-in stood, and the meter is held at its middle. */
function takeStandInPlace(setup: Setup, glass: Glass): void {
  const standIn = setup.pieces.find(({ id }) => id === STAND_IN_ID);
  const [x, y, z] = standIn?.positionM ?? [0, 0, 0];
  const heightM = 'heightM' in glass.profile ? glass.profile.heightM : 0.15;
  const put = documentStore.apply(`Add ${glass.name}`, [
    { op: 'add', collection: 'pieces', record: { ...glass, positionM: [x, y, z] } },
    {
      op: 'updateSubject',
      patch: { pieceId: glass.id, meterPointM: [x, Number((y + heightM / 2).toFixed(4)), z] },
    },
    { op: 'remove', collection: 'pieces', id: STAND_IN_ID },
  ]);
  if (put.ok) selectRecord(glass.id);
}

/** A sweep is as thin as paper; this much lies between it and the table. */
const PAPER_M = 0.001;
const LEVEL_WITHIN_M = 0.002;

function layOnTable(setup: Setup, piece: Extract<Piece, { kind: 'sheet' | 'sweep' }>): void {
  const thickM = piece.kind === 'sheet' ? piece.thicknessM : 0;
  const tables = setup.pieces.filter(
    ({ kind, positionM }) => kind === 'tabletop' && Math.abs(positionM[1]) < LEVEL_WITHIN_M,
  );
  const [x, , z] = piece.positionM;
  const laid = documentStore.apply(`Add ${piece.name}`, [
    ...tables.map(({ id, positionM: [tx, , tz] }) =>
      updateRecord('pieces', id, { positionM: [tx, -Number((thickM + PAPER_M).toFixed(4)), tz] }),
    ),
    {
      op: 'add',
      collection: 'pieces',
      record: { ...piece, name: freeName(setup, piece.name), positionM: [x, thickM === 0 ? 0 : -thickM, z] },
    },
  ]);
  if (laid.ok) selectRecord(piece.id);
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
