import { groupOf, newGroupId } from '../../document/arrangement.ts';
import type { DocumentChange } from '../../document/changes.ts';
import { newId } from '../../document/defaults.ts';
import { RECORD_LIST_NAMES, type RecordBase, type RecordListName } from '../../document/records.ts';
import type { Setup } from '../../document/setup.ts';
import {
  CAMERA_ID,
  documentStore,
  getFrameScene,
  getSetModel,
  selectRecords,
  sessionStore,
  showNotice,
} from '../session/index.ts';
import { freeName } from '../shelf/freeName.ts';
import {
  type Arranged,
  type Axis,
  alignChanges,
  centreLineChanges,
  distanceChanges,
  type Line,
  spreadChanges,
} from './alignRecords.ts';
import { getSelection, isHeldStill } from './selection.ts';

/** How far right of its original a copy stands. */
const COPY_STEP_M = 0.15;

interface Listed {
  readonly list: RecordListName;
  readonly record: Setup[RecordListName][number];
}

const findListed = (setup: Setup, id: string): Listed | null => {
  for (const list of RECORD_LIST_NAMES) {
    const records: readonly Setup[RecordListName][number][] = setup[list];
    const record = records.find((entry) => entry.id === id);
    if (record) return { list, record };
  }
  return null;
};

const listedOf = (setup: Setup, ids: readonly string[]): Listed[] => ids.flatMap((id) => findListed(setup, id) ?? []);

/** 'Softbox' or '3 things'. */
export function nameOf(ids: readonly string[]): string {
  const [only] = ids;
  if (ids.length !== 1 || only === undefined) return `${ids.length} things`;
  if (only === CAMERA_ID) return 'Camera';
  return findListed(documentStore.getState().setup, only)?.record.name ?? only;
}

const arranged = (): Arranged => ({
  scene: getFrameScene(),
  set: getSetModel(),
  cameraId: sessionStore.getState().frameId,
});

/** What is selected and no lock holds; says so when a lock holds some of it. */
function movable(): readonly string[] {
  const selection = getSelection();
  const free = selection.filter((id) => !isHeldStill(id));
  if (free.length < selection.length) sayLocked(selection.filter(isHeldStill));
  return free;
}

export function sayLocked(ids: readonly string[]): void {
  showNotice({
    tone: 'done',
    text: `${nameOf(ids)} ${ids.length === 1 ? 'is' : 'are'} locked.`,
    action: { label: 'Unlock', run: () => setLocked(ids, false) },
  });
}

const LINE_WORDS: readonly (readonly [Axis, Record<Line, string>])[] = [
  [0, { low: 'Line up left edges', middle: 'Line up middles across', high: 'Line up right edges' }],
  [1, { low: 'Line up feet', middle: 'Line up middles in height', high: 'Line up tops' }],
  [2, { low: 'Line up backs', middle: 'Line up middles in depth', high: 'Line up fronts' }],
];

export const lineWords = (axis: Axis, line: Line): string => LINE_WORDS[axis][1][line];

export function alignSelected(axis: Axis, line: Line): void {
  const ids = movable();
  documentStore.apply(lineWords(axis, line), alignChanges(arranged(), ids, axis, line));
}

export const spreadWords = (axis: Axis): string =>
  axis === 0 ? 'Spread evenly across' : axis === 1 ? 'Spread evenly in height' : 'Spread evenly in depth';

export function spreadSelected(axis: Axis): void {
  documentStore.apply(spreadWords(axis), spreadChanges(arranged(), movable(), axis));
}

export function centreSelected(): void {
  documentStore.apply('Put on the centre line', centreLineChanges(arranged(), movable()));
}

export function placeSelectedAt(distanceM: number): void {
  documentStore.apply('Distance from the subject', distanceChanges(arranged(), movable(), distanceM));
}

export function groupSelected(): void {
  const { setup } = documentStore.getState();
  const ids = listedOf(setup, getSelection()).map(({ record }) => record.id);
  if (ids.length < 2) return;
  const id = newGroupId(setup);
  documentStore.apply('Group', [{ op: 'group', id, name: `Group ${id.replace(/^.*:/, '')}`, ids }]);
}

export function ungroupSelected(): void {
  const { setup } = documentStore.getState();
  const groups = new Set(getSelection().flatMap((id) => groupOf(setup, id)?.id ?? []));
  documentStore.apply(
    'Take the group apart',
    [...groups].map((id): DocumentChange => ({ op: 'ungroup', id })),
  );
}

export function setLocked(ids: readonly string[], locked: boolean): void {
  const { frameId } = sessionStore.getState();
  const held = ids.map((id) => (id === CAMERA_ID ? frameId : id));
  documentStore.apply(`${locked ? 'Lock' : 'Unlock'} ${nameOf(ids)}`, [{ op: 'setLocked', ids: held, locked }]);
}

/** Leaves what is selected out of this frame, or of every frame. The hero stays. */
export function hideSelected(everywhere = false): void {
  const { setup } = documentStore.getState();
  const { frameId } = sessionStore.getState();
  const ids = withoutHero(getSelection(), 'left out');
  const frames = everywhere ? setup.frames.map(({ id }) => id) : [frameId];
  const changes = listedOf(setup, ids).flatMap(({ record }) =>
    frames.map((id): DocumentChange => ({ op: 'setHidden', frameId: id, id: record.id, hidden: true })),
  );
  if (documentStore.apply(`Leave out ${nameOf(ids)}`, changes).ok) selectRecords([]);
}

/** Puts back all that this frame leaves out. */
export function showAll(): void {
  const { setup } = documentStore.getState();
  const { frameId } = sessionStore.getState();
  const frame = setup.frames.find(({ id }) => id === frameId) ?? setup.frames[0];
  documentStore.apply(
    'Put everything back',
    frame.hidden.map((id): DocumentChange => ({ op: 'setHidden', frameId: frame.id, id, hidden: false })),
  );
}

export function removeSelected(): void {
  const { setup } = documentStore.getState();
  const ids = withoutHero(getSelection(), 'removed');
  const changes = listedOf(setup, ids).map(
    ({ list, record }): DocumentChange => ({ op: 'remove', collection: list, id: record.id }),
  );
  if (changes.length === 0) return;
  const words = nameOf(ids);
  if (!documentStore.apply(`Remove ${words}`, changes).ok) return;
  showNotice({ tone: 'done', text: `Removed ${words}.`, action: { label: 'Undo', run: () => documentStore.undo() } });
}

function withoutHero(ids: readonly string[], done: string): readonly string[] {
  const { pieceId } = documentStore.getState().setup.subject;
  if (!ids.includes(pieceId)) return ids;
  showNotice({
    tone: 'done',
    text: `The hero can't be ${done}: the meter is held at it. Make another piece the hero first.`,
  });
  return ids.filter((id) => id !== pieceId);
}

/** Copies beside the originals; what was one whole group becomes one of its own. */
export function duplicateSelected(): void {
  const { setup } = documentStore.getState();
  const originals = listedOf(setup, getSelection());
  if (originals.length === 0) return;
  let grown = setup;
  const copies = new Map<string, string>();
  const changes = originals.map(({ list, record }): DocumentChange => {
    const id = newId(grown, record.id.includes(':') ? record.id.slice(0, record.id.lastIndexOf(':')) : record.id);
    const [x, y, z] = record.positionM;
    const copy = {
      ...record,
      id,
      name: freeName(grown, record.name),
      positionM: [Number((x + COPY_STEP_M).toFixed(4)), y, z],
      ...aimBeside(record, originals.length),
    };
    copies.set(record.id, id);
    // Only names and ids of what is there count for the next free ones.
    grown = { ...grown, pieces: [...grown.pieces, { ...setup.pieces[0], id, name: copy.name }] };
    return { op: 'add', collection: list, record: copy };
  });
  const groups = (setup.arrangement?.groups ?? []).filter(({ ids }) => ids.every((id) => copies.has(id)));
  const regrouped = groups.map(
    ({ name, ids }, i): DocumentChange => ({
      op: 'group',
      id: `group:copy-${newGroupId(setup).replace(/^.*:/, '')}-${i}`,
      name: `${name}, copy`.slice(0, 120),
      ids: ids.flatMap((id) => copies.get(id) ?? []),
    }),
  );
  const label = `Duplicate ${nameOf(originals.map(({ record }) => record.id))}`;
  if (documentStore.apply(label, [...changes, ...regrouped]).ok) selectRecords([...copies.values()]);
}

/** Several copies keep their directions; one light goes on looking at the same point. */
function aimBeside(record: RecordBase & object, count: number): object {
  if (!('aimM' in record) || !Array.isArray(record.aimM) || count < 2) return {};
  const [x, y, z] = record.aimM;
  return { aimM: [Number((x + COPY_STEP_M).toFixed(4)), y, z] };
}

/** Makes the selected piece the hero: the meter goes to its middle. */
export function makeHero(pieceId: string): void {
  const bounds = getSetModel().boundsByRecord.get(pieceId);
  if (!bounds) return;
  const middle = [0, 1, 2].map((k) => Number(((bounds.minM[k] + bounds.maxM[k]) / 2).toFixed(4)));
  documentStore.apply(`${nameOf([pieceId])} is the hero`, [
    { op: 'updateSubject', patch: { pieceId, meterPointM: middle } },
  ]);
}

/** Turns the selected lights and sheets to the meter point. */
export function aimSelectedAtSubject(): void {
  const scene = getFrameScene();
  const { frameId } = sessionStore.getState();
  const changes = movable().flatMap((id): DocumentChange[] => {
    const patch = { aimM: [...scene.subject.meterPointM] };
    if (id === CAMERA_ID) return [{ op: 'update', collection: 'camera', id: frameId, patch }];
    if (scene.fixtures.some((fixture) => fixture.id === id))
      return [{ op: 'update', collection: 'fixtures', id, patch }];
    return scene.grip.some((item) => item.id === id) ? [{ op: 'update', collection: 'grip', id, patch }] : [];
  });
  documentStore.apply('Look at the subject', changes);
}
