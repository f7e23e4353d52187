import type { FrameScene } from '../../scene/setModel.ts';
import { TURNTABLE_ID } from '../../scene/turntable.ts';
import { CAMERA_ID } from '../session/index.ts';
import { cameraSheet, type FrameLabel, turntableSheet } from './cameraSheet.ts';
import type { RecordSheet } from './fields.ts';
import { fixtureSheet } from './fixtureSheet.ts';
import { gripSheet } from './gripSheet.ts';
import { pieceSheet } from './pieceSheet.ts';
import { withFromSubject } from './withFromSubject.ts';

/** The sheet of whatever has this id in the frame; null when nothing has. */
export function sheetOf(scene: FrameScene, recordId: string, frame: FrameLabel): RecordSheet | null {
  const sheet = plainSheetOf(scene, recordId, frame);
  return sheet && withFromSubject(sheet, scene);
}

function plainSheetOf(scene: FrameScene, recordId: string, frame: FrameLabel): RecordSheet | null {
  if (recordId === CAMERA_ID) return cameraSheet(scene.camera, frame);
  if (recordId === TURNTABLE_ID && scene.turntable) {
    return turntableSheet(scene.turntable, scene.turntableAngleDeg, frame);
  }
  const fixture = scene.fixtures.find(({ id }) => id === recordId);
  if (fixture) return fixtureSheet(fixture);
  const item = scene.grip.find(({ id }) => id === recordId);
  if (item) return gripSheet(item);
  const piece = scene.pieces.find(({ id }) => id === recordId);
  return piece ? pieceSheet(piece) : null;
}
