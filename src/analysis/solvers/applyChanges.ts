import { cameraSchema } from '../../camera/records.ts';
import { fixtureSchema, gripSchema } from '../../fixtures/records.ts';
import { pieceSchema } from '../../scene/records.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import type { RecordChange } from '../contracts.ts';

/**
 * The scene after a remedy, for trying it out. A patch replaces whole fields of the record. Changed records are read
 * through their schemas, so a change that no document could hold throws here.
 */
export const applyChanges = (scene: FrameScene, changes: readonly RecordChange[]): FrameScene =>
  changes.reduce(applyChange, scene);

function applyChange(scene: FrameScene, change: RecordChange): FrameScene {
  switch (change.collection) {
    case 'pieces':
      return { ...scene, pieces: changeList(scene.pieces, change, (record) => pieceSchema.parse(record)) };
    case 'fixtures':
      return { ...scene, fixtures: changeList(scene.fixtures, change, (record) => fixtureSchema.parse(record)) };
    case 'grip':
      return { ...scene, grip: changeList(scene.grip, change, (record) => gripSchema.parse(record)) };
    case 'camera':
      return change.op === 'update'
        ? { ...scene, camera: cameraSchema.parse({ ...scene.camera, ...change.patch }) }
        : scene;
  }
}

function changeList<T extends { readonly id: string }>(
  records: readonly T[],
  change: RecordChange,
  parse: (record: unknown) => T,
): readonly T[] {
  switch (change.op) {
    case 'update':
      return records.map((record) => (record.id === change.id ? parse({ ...record, ...change.patch }) : record));
    case 'add':
      return [...records, parse(change.record)];
    case 'remove':
      return records.filter((record) => record.id !== change.id);
  }
}
