import { findFormat, SENSOR_FORMATS } from '../../camera/formats.ts';
import { type Camera, cameraSchema, type MatteBox } from '../../camera/records.ts';
import { type Turntable, turntableSchema } from '../../scene/records.ts';
import { TURNTABLE_ID } from '../../scene/turntable.ts';
import { CAMERA_ID, updateRecord } from '../session/index.ts';
import {
  centimetres,
  choice,
  degrees,
  type Field,
  millimetres,
  number,
  point,
  type RecordSheet,
  toggle,
} from './fields.ts';
import { withTheRest } from './withTheRest.ts';

/** Exposure and white balance stand under the picture; the size of the sensor is chosen as one. */
const UNDER_THE_PICTURE = ['apertureFNumber', 'shutterS', 'iso', 'whiteBalanceK', 'sensorWidthMm', 'sensorHeightMm'];
const TURNED_KEY = 'turntableAngleDeg';
const FIRST_MATTE_BOX: MatteBox = { innerWidthM: 0.14, innerHeightM: 0.1, depthM: 0.08, topFlagM: 0, sideFlagsM: 0 };

export interface FrameLabel {
  readonly id: string;
  readonly name: string;
}

/** The camera of one frame. Stop, shutter and sensitivity stand under the picture. */
export function cameraSheet(camera: Camera, frame: FrameLabel): RecordSheet {
  return {
    recordId: CAMERA_ID,
    collection: 'camera',
    title: frame.name,
    kindWords: 'Camera of the frame',
    change: (patch) => updateRecord('camera', frame.id, patch),
    rename: (name) => ({ op: 'updateFrame', id: frame.id, patch: { name } }),
    groups: withTheRest(
      cameraSchema,
      camera,
      'More of the lens',
      [
        { title: 'Lens', fields: lensFields(camera) },
        {
          title: 'Place',
          fields: [
            point('positionM', 'Stands at', camera.positionM, (positionM) => ({ positionM })),
            point('aimM', 'Looks at', camera.aimM, (aimM) => ({ aimM })),
            degrees('rollDeg', 'Roll', camera.rollDeg, -180, 180),
          ],
        },
        { title: 'Matte box', fields: matteBoxFields(camera.matteBox) },
      ],
      UNDER_THE_PICTURE,
    ),
  };
}

function lensFields(camera: Camera): Field[] {
  const known = findFormat(camera);
  const own = `${camera.sensorWidthMm} x ${camera.sensorHeightMm} mm`;
  const options = Object.fromEntries(SENSOR_FORMATS.map((format) => [format.name, format.name]));
  return [
    number('focalLengthMm', 'Focal length', camera.focalLengthMm, { unit: 'mm', min: 4, max: 2000, step: 1 }),
    centimetres('focusDistanceM', 'Focus', camera.focusDistanceM, (focusDistanceM) => ({ focusDistanceM }), {
      minM: 0.02,
      maxM: 200,
    }),
    choice('sensor', 'Sensor', known?.name ?? own, known ? options : { [own]: own, ...options }, (name) => {
      const format = SENSOR_FORMATS.find((entry) => entry.name === name);
      return format ? { sensorWidthMm: format.widthMm, sensorHeightMm: format.heightMm } : {};
    }),
    millimetres('frontElementDiameterM', 'Front element', camera.frontElementDiameterM, (frontElementDiameterM) => ({
      frontElementDiameterM,
    })),
  ];
}

function matteBoxFields(box: MatteBox | undefined): Field[] {
  const fitted = toggle('boxFitted', 'Fitted', box !== undefined, (on) => ({ matteBox: on ? FIRST_MATTE_BOX : null }));
  if (!box) return [fitted];
  const part = (key: keyof MatteBox, label: string, minM = 0) =>
    centimetres(`box-${key}`, label, box[key], (value) => ({ matteBox: { [key]: value } }), { minM, maxM: 1 });
  return [
    fitted,
    part('innerWidthM', 'Width', 0.02),
    part('innerHeightM', 'Height', 0.02),
    part('depthM', 'Depth', 0.005),
    part('topFlagM', 'Top flag'),
    part('sideFlagsM', 'Side flags'),
  ];
}

/** The turntable under the hero. How far it is turned belongs to the frame, all else to the turntable. */
export function turntableSheet(turntable: Turntable, turnedDeg: number, frame: FrameLabel): RecordSheet {
  return {
    recordId: TURNTABLE_ID,
    collection: 'turntable',
    title: 'Turntable',
    kindWords: turntable.carries.length === 1 ? 'carries one piece' : `carries ${turntable.carries.length} pieces`,
    change: (patch) =>
      TURNED_KEY in patch ? { op: 'updateFrame', id: frame.id, patch } : { op: 'updateTurntable', patch },
    groups: withTheRest(turntableSchema, turntable, 'Top', [
      {
        title: 'Turn',
        fields: [
          degrees(TURNED_KEY, 'Turned to', turnedDeg, -180, 360),
          number('rpm', 'Speed', turntable.rpm, { unit: 'rpm', min: 0, max: 200, step: 0.5, decimals: 1 }),
          millimetres('runOutM', 'Off centre by', turntable.runOutM, (runOutM) => ({ runOutM }), {
            minM: 0,
            maxM: 0.05,
          }),
          centimetres('diameterM', 'Diameter', turntable.diameterM, (diameterM) => ({ diameterM })),
        ],
      },
      { title: 'Place', fields: [point('centreM', 'Centre', turntable.centreM, (centreM) => ({ centreM }))] },
    ]),
  };
}
