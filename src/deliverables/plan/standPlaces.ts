import type { Camera } from '../../camera/records.ts';
import type { CameraView } from '../../camera/view.ts';
import { degFromRad } from '../../core/units.ts';
import { sub, type Vec3 } from '../../core/vec3.ts';
import { describeFixture, describeGrip } from '../../fixtures/describe.ts';
import type { Fixture, GripItem } from '../../fixtures/records.ts';
import type { FrameSet } from '../frameSet.ts';
import { type Floor, findFloor } from './floor.ts';
import { type LengthUnits, lengthWords } from './lengthWords.ts';
import { recordMarks } from './recordMarks.ts';

/** Where a light, a sheet of grip or the camera stands, in figures that a tape and an angle finder can check. */
export interface StandPlace {
  readonly recordId: string;
  readonly kind: 'fixture' | 'grip' | 'camera';
  readonly mark: string;
  readonly name: string;
  readonly what: string;
  readonly positionM: Vec3;
  readonly aimM: Vec3;
  /** From the plumb line through the meter point: level distance, then its two parts along the set's own axes. */
  readonly horizontalM: number;
  /** Toward camera right of the set; negative is left. */
  readonly rightM: number;
  /** Toward the usual camera side; negative is toward the backdrop. */
  readonly frontM: number;
  /** Over the table top: centre of the emitting face, of the sheet, of the lens. */
  readonly heightM: number;
  readonly heightOverFloorM: number | null;
  readonly aimHeightM: number;
  /** Of the axis against the level; positive looks down. */
  readonly tiltDownRad: number;
}

export const CAMERA_MARK = 'CAM';
export const CAMERA_RECORD_ID = 'camera';

export interface PlaceOptions {
  /** Table top over the floor, when it is known. */
  readonly tableHeightM?: number;
  /** What lengths are said in; millimetres when left out. */
  readonly lengths?: LengthUnits;
}

/** The camera, then lights and sheets in the order of their marks; only what is there in the frame. */
export function standPlaces(
  { setup, scene, set, view }: FrameSet,
  { tableHeightM, lengths }: PlaceOptions = {},
): {
  readonly places: readonly StandPlace[];
  readonly floor: Floor | null;
} {
  const marks = recordMarks(setup);
  const floor = findFloor(scene.pieces, set.boundsByRecord, tableHeightM);
  const subjectM = scene.subject.meterPointM;
  const place = (
    kind: StandPlace['kind'],
    recordId: string,
    mark: string,
    words: { readonly name: string; readonly what: string },
    record: { readonly positionM: Vec3; readonly aimM: Vec3 },
  ): StandPlace => {
    const [dx, , dz] = sub(record.positionM, subjectM);
    const [ax, ay, az] = sub(record.aimM, record.positionM);
    return {
      recordId,
      kind,
      mark,
      ...words,
      positionM: record.positionM,
      aimM: record.aimM,
      horizontalM: Math.hypot(dx, dz),
      rightM: dx,
      frontM: dz,
      heightM: record.positionM[1],
      heightOverFloorM: floor ? record.positionM[1] - floor.yM : null,
      aimHeightM: record.aimM[1],
      tiltDownRad: Math.atan2(-ay, Math.hypot(ax, az)),
    };
  };
  const named = (record: Fixture | GripItem, what: string) => ({ name: record.name, what });
  return {
    floor,
    places: [
      place(
        'camera',
        CAMERA_RECORD_ID,
        CAMERA_MARK,
        { name: 'Camera', what: describeCamera(scene.camera, view, lengths) },
        scene.camera,
      ),
      ...scene.fixtures.map((f) => place('fixture', f.id, marks.get(f.id) ?? f.id, named(f, describeFixture(f)), f)),
      ...scene.grip.map((g) => place('grip', g.id, marks.get(g.id) ?? g.id, named(g, describeGrip(g)), g)),
    ],
  };
}

/** '85 mm, field 23.9 x 13.6\u00b0, focus 1290 from lens'. */
function describeCamera(camera: Camera, view: CameraView, lengths?: LengthUnits): string {
  const fieldDeg = (tanHalf: number): string => degFromRad(2 * Math.atan(tanHalf)).toFixed(1);
  const focal = Number(camera.focalLengthMm.toFixed(1));
  return `${focal} mm, field ${fieldDeg(view.tanHalfWidth)} x ${fieldDeg(view.tanHalfHeight)}\u00b0, focus ${lengthWords(camera.focusDistanceM, lengths)}`;
}
