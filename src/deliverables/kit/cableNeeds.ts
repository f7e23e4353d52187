import type { Vec3 } from '../../core/vec3.ts';
import type { FrameSet } from '../frameSet.ts';
import { findFloor } from '../plan/floor.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import { ASSUMED_TABLE_HEIGHT_M } from './supportNeeds.ts';

export interface CableNeed {
  readonly recordId: string;
  readonly mark: string;
  /** Down the stand and along the floor to the distribution, slack included, m. */
  readonly pathM: number;
  /** The length to hire, m. */
  readonly lengthM: number;
}

/** Lengths that cables are hired in, m. */
const HIRED_LENGTHS_M = [3, 5, 10, 15, 20, 25, 50] as const;
/** Cables run round things and leave a loop at the stand. Common practice, no source. */
const SLACK = 1.3;
/** The distribution stands this far outside the back left corner of everything on the set. */
const BESIDE_SET_M = 0.5;

/** Where the cables are taken to come together: on the floor, back left of the set. */
export function distributionPointM({ scene, set }: FrameSet, tableHeightM?: number): Vec3 {
  const floorYM = findFloor(scene.pieces, set.boundsByRecord, tableHeightM)?.yM ?? -ASSUMED_TABLE_HEIGHT_M;
  let [x, z] = [0, 0];
  for (const { minM } of set.boundsByRecord.values()) {
    x = Math.min(x, minM[0]);
    z = Math.min(z, minM[2]);
  }
  return [x - BESIDE_SET_M, floorYM, z - BESIDE_SET_M];
}

/** A mains cable for every light. */
export function cableNeeds(frameSet: FrameSet, tableHeightM?: number): CableNeed[] {
  const from = distributionPointM(frameSet, tableHeightM);
  const marks = recordMarks(frameSet.setup);
  return frameSet.scene.fixtures.map(({ id, positionM }): CableNeed => {
    // Along the floor round corners, not straight across the set.
    const alongM = Math.abs(positionM[0] - from[0]) + Math.abs(positionM[2] - from[2]);
    const pathM = SLACK * (positionM[1] - from[1] + alongM);
    const lengthM = HIRED_LENGTHS_M.find((length) => pathM <= length) ?? Math.ceil(pathM / 50) * 50;
    return { recordId: id, mark: marks.get(id) ?? id, pathM, lengthM };
  });
}
