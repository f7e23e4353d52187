import { projectPoint } from '../../camera/projection.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Fixture, GripItem } from '../../fixtures/records.ts';
import type { CheckInput } from '../contracts.ts';

/** Standard gravity (3rd CGPM, 1901). */
export const GRAVITY_M_PER_S2 = 9.80665;
/** Weights hang this far behind the pivot of a boom; a boom arm weighs about this much. Typical, no source. */
export const WEIGHT_ARM_M = 0.6;
export const BOOM_KG = 2;

/**
 * Counterweight that balances a load about the pivot, W1 d1 + Wb db = W2 d2, kg: the boom as an even rod, whose middle lies
 * (reach - weight arm) / 2 toward the load. Raising the boom scales all arms alike and keeps the balance.
 */
export function counterweightKg(loadKg: number, reachM: number, boomKg = BOOM_KG, weightArmM = WEIGHT_ARM_M): number {
  return Math.max(0, (loadKg * reachM + (boomKg * (reachM - weightArmM)) / 2) / weightArmM);
}

/** Moment of a load about the stand, N m. */
export const momentNm = (loadKg: number, reachM: number): number => loadKg * GRAVITY_M_PER_S2 * reachM;

/** Draw of a head whose record states none, W. */
const USUAL_HEAD_W = 150;

/** What a light with its yoke, or a sheet, of its kind and size weighs, kg. Class figures, of no product; no source. */
export function typicalMassKg(record: Fixture | GripItem): number {
  switch (record.kind) {
    case 'panel':
      return 1 + 14 * record.widthM * record.heightM;
    case 'spot':
    case 'measured':
      return 1 + (record.powerW ?? USUAL_HEAD_W) / 60;
    case 'softbox':
      return 2.5 + (record.powerW ?? USUAL_HEAD_W) / 150 + 1.5 * record.widthM * record.heightM;
    case 'tube':
      return 0.3 + 0.9 * record.lengthM;
    case 'bulb':
      return 0.5;
    case 'lantern':
      return 0.7;
    case 'flag':
      return 0.4 + 2 * record.widthM * record.heightM;
    case 'bounceCard':
      return 0.1 + record.widthM * record.heightM;
    case 'diffusionFrame':
      return 1 + 1.5 * record.widthM * record.heightM;
  }
}

/** Room that a stand needs round its middle. */
const STAND_M = 0.2;
const DIRECTIONS = 24;
const STEP_M = 0.05;
const FARTHEST_M = 4;
/** Things broader than this are not stood in. */
const BROAD_M = 0.4;
const COLUMN_STEPS = 6;

/**
 * How far a boom must reach: level distance from a thing to the nearest place where a stand can be, off the table and whatever
 * else is broad, and with its column out of the frame. 0 where the thing can stand on its own column.
 */
export function boomReachM(input: CheckInput, positionM: Vec3): number {
  if (isFree(input, positionM[0], positionM[2], positionM[1])) return 0;
  for (let reachM = STEP_M; reachM <= FARTHEST_M; reachM += STEP_M) {
    for (let i = 0; i < DIRECTIONS; i++) {
      const a = (2 * Math.PI * i) / DIRECTIONS;
      if (isFree(input, positionM[0] + reachM * Math.cos(a), positionM[2] + reachM * Math.sin(a), positionM[1]))
        return reachM;
    }
  }
  return FARTHEST_M;
}

function isFree({ scene, set, view }: CheckInput, x: number, z: number, topM: number): boolean {
  for (const { id } of scene.pieces) {
    const bounds = set.boundsByRecord.get(id);
    if (!bounds) continue;
    const { minM, maxM } = bounds;
    if (maxM[0] - minM[0] < BROAD_M && maxM[2] - minM[2] < BROAD_M) continue;
    if (x > minM[0] - STAND_M && x < maxM[0] + STAND_M && z > minM[2] - STAND_M && z < maxM[2] + STAND_M) return false;
  }
  for (let k = 0; k <= COLUMN_STEPS; k++) {
    const at = projectPoint(view, [x, (topM * k) / COLUMN_STEPS, z]);
    if (at && at.u > 0 && at.u < 1 && at.v > 0 && at.v < 1) return false;
  }
  return true;
}
