import { projectPoint } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import { dot, normalize, sub, type Vec3 } from '../../core/vec3.ts';
import type { Fixture, GripItem } from '../../fixtures/records.ts';
import type { FrameSet } from '../frameSet.ts';
import { isTable } from '../pieceRoles.ts';
import { findFloor } from '../plan/floor.ts';
import { recordMarks } from '../plan/recordMarks.ts';
import { counterweightKg, sandbagCount } from './moments.ts';
import { loadClassKg, typicalFixtureKg, typicalGripKg, typicalStandKg } from './typicalMass.ts';

/** How something is held up, from the least to the most. */
export type Support = 'on the table' | 'stand' | 'stand and arm' | 'boom';

export interface SupportNeed {
  readonly recordId: string;
  readonly mark: string;
  readonly name: string;
  readonly kind: 'fixture' | 'grip';
  readonly support: Support;
  readonly heightOverFloorM: number;
  /** From where a stand can stand, off the table and out of the frame, to the plumb line of what it holds, m. */
  readonly reachM: number;
  readonly loadKg: number;
  /** What the stand must carry: load, and pole and counterweight of a boom. */
  readonly standLoadKg: number;
  readonly standClassKg: number;
  readonly counterweightKg: number;
  readonly sandbags: number;
}

/** Table height when nothing tells, m. Common practice, no source. */
export const ASSUMED_TABLE_HEIGHT_M = 0.75;
/** A grip arm holds this much this far out. Common practice, no source. */
const ARM_REACH_M = 1;
const ARM_LOAD_KG = 2.5;
const ARM_KG = 1.5;
/** Column of a stand from the edge of a table. */
const CLEAR_OF_TABLE_M = 0.1;
/** Short arm of a boom, where the counterweight hangs, and its pole. */
export const COUNTER_ARM_M = 0.6;
const poleKg = (loadKg: number): number => (loadKg <= 5 ? 2 : 4);
/** A sheet whose lower edge is this near to the table stands on it. */
const ON_TABLE_M = 0.08;

/** What holds every light and sheet of one frame. */
export function supportNeeds(
  { setup, scene, set, view }: FrameSet,
  tableHeightM?: number,
): { readonly needs: readonly SupportNeed[]; readonly floorAssumed: boolean } {
  const floor = findFloor(scene.pieces, set.boundsByRecord, tableHeightM);
  const floorYM = floor?.yM ?? -ASSUMED_TABLE_HEIGHT_M;
  const marks = recordMarks(setup);
  const need = (kind: SupportNeed['kind'], record: Fixture | GripItem, loadKg: number): SupportNeed => {
    const [xM, yM, zM] = record.positionM;
    const lowestM = set.boundsByRecord.get(record.id)?.minM[1] ?? yM;
    const overTableM = reachOverTable(scene.pieces, set.boundsByRecord, xM, zM);
    const outOfFrameM = reachOutOfFrame(view, record.positionM, floorYM, lowestM);
    const reachM = Math.max(overTableM, outOfFrameM);
    const support = supportFor(kind, { overTableM, reachM, loadKg, lowestM });
    const heightOverFloorM = record.positionM[1] - floorYM;
    const counterKg = support === 'boom' ? counterweightKg(loadKg, reachM, COUNTER_ARM_M, poleKg(loadKg)) : 0;
    const standLoadKg =
      support === 'boom' ? loadKg + poleKg(loadKg) + counterKg : support === 'stand and arm' ? loadKg + ARM_KG : loadKg;
    const standClassKg = loadClassKg(standLoadKg);
    return {
      recordId: record.id,
      mark: marks.get(record.id) ?? record.id,
      name: record.name,
      kind,
      support,
      heightOverFloorM,
      reachM,
      loadKg,
      standLoadKg: support === 'on the table' ? 0 : standLoadKg,
      standClassKg,
      counterweightKg: counterKg,
      sandbags:
        support === 'on the table'
          ? 0
          : sandbagCount({
              massKg: standLoadKg + typicalStandKg(standClassKg),
              heightM: heightOverFloorM,
              // A boom is balanced over its stand; an arm is not.
              overhangKg: support === 'stand and arm' ? loadKg : 0,
              overhangM: reachM,
            }),
    };
  };
  return {
    floorAssumed: floor === null,
    needs: [
      ...scene.fixtures.map((f) => need('fixture', f, typicalFixtureKg(f))),
      ...scene.grip.map((g) => need('grip', g, typicalGripKg(g))),
    ],
  };
}

function supportFor(
  kind: SupportNeed['kind'],
  at: { readonly overTableM: number; readonly reachM: number; readonly loadKg: number; readonly lowestM: number },
): Support {
  if (at.overTableM > 0 && kind === 'grip' && at.lowestM < ON_TABLE_M) return 'on the table';
  if (at.reachM === 0) return kind === 'grip' ? 'stand and arm' : 'stand';
  return at.reachM <= ARM_REACH_M && at.loadKg <= ARM_LOAD_KG ? 'stand and arm' : 'boom';
}

/**
 * How far a stand must reach: 0 where it can stand under the thing; else to the nearest edge of the tables and sweeps that
 * lie under it (by their upright bounds), and a little clear of it.
 */
function reachOverTable(
  pieces: FrameSet['scene']['pieces'],
  bounds: FrameSet['set']['boundsByRecord'],
  xM: number,
  zM: number,
): number {
  let reach = 0;
  for (const piece of pieces) {
    const own = isTable(piece) ? bounds.get(piece.id) : undefined;
    if (!own) continue;
    const inside = Math.min(xM - own.minM[0], own.maxM[0] - xM, zM - own.minM[2], own.maxM[2] - zM);
    if (inside > 0) reach = Math.max(reach, inside + CLEAR_OF_TABLE_M);
  }
  return reach;
}

/** Steps up a stand that are looked at. */
const COLUMN_STEPS = 24;
const CLEAR_OF_FRAME_M = 0.1;

/**
 * How far to the side a stand must go so that its column does not show: 0 when no point of it, from the floor to the thing
 * it holds, falls inside the frame. What stands before it might hide it; that is not counted on.
 */
function reachOutOfFrame(view: CameraView, positionM: Vec3, floorYM: number, lowestM: number): number {
  const level = normalize([view.right[0], 0, view.right[2]]);
  let reach = 0;
  for (let i = 0; i <= COLUMN_STEPS; i++) {
    const yM = floorYM + ((lowestM - floorYM) * i) / COLUMN_STEPS;
    const at = projectPoint(view, [positionM[0], yM, positionM[2]]);
    if (!at || at.u < 0 || at.u > 1 || at.v < 0 || at.v > 1) continue;
    const sideM = Math.abs(dot(sub(positionM, view.originM), level));
    reach = Math.max(reach, view.tanHalfWidth * at.depthM - sideM + CLEAR_OF_FRAME_M);
  }
  return reach;
}

const RANK: Readonly<Record<Support, number>> = { 'on the table': 0, stand: 1, 'stand and arm': 2, boom: 3 };

/** What each record needs at most over several frames. */
export function mostOfNeeds(frames: readonly (readonly SupportNeed[])[]): SupportNeed[] {
  const most = new Map<string, SupportNeed>();
  for (const need of frames.flat()) {
    const known = most.get(need.recordId);
    const isMore =
      !known ||
      RANK[need.support] > RANK[known.support] ||
      (need.support === known.support && need.standLoadKg + need.sandbags > known.standLoadKg + known.sandbags);
    if (isMore) most.set(need.recordId, need);
  }
  return [...most.values()];
}
