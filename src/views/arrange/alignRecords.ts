import { add, addScaled, distance, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { DocumentChange } from '../../document/changes.ts';
import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { type Hold, holdRecord, moveChanges } from '../drawing/moveRecord.ts';

/** 0 across, 1 up, 2 toward the usual camera side. */
export type Axis = 0 | 1 | 2;
export type Line = 'low' | 'middle' | 'high';

export interface Arranged {
  readonly scene: FrameScene;
  readonly set: SetModel;
  /** Id under which the document knows the frame's camera. */
  readonly cameraId: string;
}

interface Extent {
  readonly hold: Hold;
  readonly minM: Vec3;
  readonly maxM: Vec3;
}

/** Pieces count with what they measure; lights, grip and the camera with the point that they are placed by. */
function extentOf({ scene, set }: Arranged, id: string): Extent | null {
  const hold = holdRecord(scene, id, 'body');
  if (!hold) return null;
  const bounds = hold.collection === 'pieces' ? set.boundsByRecord.get(id) : undefined;
  return { hold, minM: bounds?.minM ?? hold.positionM, maxM: bounds?.maxM ?? hold.positionM };
}

const lineOf = ({ minM, maxM }: Extent, axis: Axis, line: Line): number =>
  line === 'low' ? minM[axis] : line === 'high' ? maxM[axis] : (minM[axis] + maxM[axis]) / 2;

const along = (axis: Axis, stepM: number): Vec3 => [
  axis === 0 ? stepM : 0,
  axis === 1 ? stepM : 0,
  axis === 2 ? stepM : 0,
];

const extentsOf = (arranged: Arranged, ids: readonly string[]): Extent[] =>
  ids.flatMap((id) => extentOf(arranged, id) ?? []);

/** Lines things up with the last of them, which stays. */
export function alignChanges(arranged: Arranged, ids: readonly string[], axis: Axis, line: Line): DocumentChange[] {
  const extents = extentsOf(arranged, ids);
  const guide = extents.at(-1);
  if (!guide) return [];
  const at = lineOf(guide, axis, line);
  return extents
    .slice(0, -1)
    .flatMap((extent) => shift(extent, along(axis, at - lineOf(extent, axis, line)), arranged));
}

/** Spreads three or more things so that their middles stand at equal steps between the two outermost. */
export function spreadChanges(arranged: Arranged, ids: readonly string[], axis: Axis): DocumentChange[] {
  const extents = extentsOf(arranged, ids).sort((a, b) => lineOf(a, axis, 'middle') - lineOf(b, axis, 'middle'));
  const [first, last] = [extents.at(0), extents.at(-1)];
  if (!first || !last || extents.length < 3) return [];
  const from = lineOf(first, axis, 'middle');
  const step = (lineOf(last, axis, 'middle') - from) / (extents.length - 1);
  return extents.flatMap((extent, i) =>
    shift(extent, along(axis, from + i * step - lineOf(extent, axis, 'middle')), arranged),
  );
}

/** Puts things on the centre line: the upright plane through the subject and the lens. */
export function centreLineChanges(arranged: Arranged, ids: readonly string[]): DocumentChange[] {
  const { camera, subject } = arranged.scene;
  const toLens = sub(camera.positionM, subject.meterPointM);
  const level: Vec3 = [toLens[0], 0, toLens[2]];
  if (length(level) < 0.01) return [];
  const acrossOf = normalize([level[2], 0, -level[0]]);
  return extentsOf(arranged, ids).flatMap((extent) =>
    shift(extent, scale(acrossOf, -dot(sub(extent.hold.positionM, subject.meterPointM), acrossOf)), arranged),
  );
}

/** Puts things at a distance from the meter point, straight in or out. */
export function distanceChanges(arranged: Arranged, ids: readonly string[], distanceM: number): DocumentChange[] {
  const { meterPointM } = arranged.scene.subject;
  return extentsOf(arranged, ids).flatMap((extent) => {
    const { positionM } = extent.hold;
    if (distance(positionM, meterPointM) < 0.005) return [];
    const toM = addScaled(meterPointM, normalize(sub(positionM, meterPointM)), distanceM);
    return shift(extent, sub(toM, positionM), arranged);
  });
}

function shift({ hold }: Extent, moveM: Vec3, { cameraId }: Arranged): DocumentChange[] {
  if (length(moveM) < 1e-6) return [];
  const to = add(hold.positionM, moveM);
  return moveChanges(hold, [round(to[0]), round(to[1]), round(to[2])], cameraId);
}

const round = (value: number): number => Number(value.toFixed(4)) + 0;
