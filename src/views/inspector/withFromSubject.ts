import type { FrameScene } from '../../scene/setModel.ts';
import { type FromSubject, fromSubject, placeFromSubject } from '../arrange/fromSubject.ts';
import { centimetres, degrees, type Field, type FieldGroup, type RecordSheet } from './fields.ts';

/**
 * Puts the place of a light, a sheet, a piece or the camera in the words of the set beside its coordinates: how far along
 * the floor, how high, how far round. They come before the coordinates, which say the same.
 */
export function withFromSubject(sheet: RecordSheet, scene: FrameScene): RecordSheet {
  const { recordId, collection } = sheet;
  const now = collection === 'turntable' ? null : fromSubject(scene, recordId);
  if (!now) return sheet;
  const placed = (change: Partial<FromSubject>) => ({
    positionM: placeFromSubject(scene, recordId, { ...now, ...change }),
  });
  const bearing: Field[] =
    recordId === 'camera'
      ? []
      : [degrees('bearingDeg', 'Round from camera', now.bearingDeg, -180, 180, (bearingDeg) => placed({ bearingDeg }))];
  const group: FieldGroup = {
    title: 'From the subject',
    fields: [
      centimetres('levelDistanceM', 'Away', now.levelDistanceM, (levelDistanceM) => placed({ levelDistanceM }), {
        minM: 0.01,
      }),
      centimetres('heightOverTableM', 'Up', now.heightM, (heightM) => placed({ heightM }), { minM: -3, maxM: 10 }),
      ...bearing,
    ],
  };
  const at = sheet.groups.findIndex(({ title }) => title === 'Place');
  const groups = at < 0 ? [...sheet.groups, group] : sheet.groups.toSpliced(at, 0, group);
  return { ...sheet, groups };
}
