import { counterweightKg as balanceKg, GRAVITY_M_PER_S2 } from '../../analysis/rigging/boom.ts';

/** Simple moment rules for booms and stands. A planning aid: stability on the day is the rigger's decision. */

/** The balance that the check of rigging reckons with; here the pole counts only where it is given. */
export const counterweightKg = (loadKg: number, loadArmM: number, counterArmM: number, poleKg = 0): number =>
  balanceKg(loadKg, loadArmM, poleKg, counterArmM);

export interface StandLoad {
  /** Everything on the stand, itself included, kg. */
  readonly massKg: number;
  /** Height at which a push comes, m. */
  readonly heightM: number;
  /** Mass that hangs out to one side, and how far. */
  readonly overhangKg: number;
  readonly overhangM: number;
}

/** A tugged cable or a brushed shoulder, N. Common practice, no source. */
export const SIDE_PUSH_N = 25;
/** From the column to the tips of the three legs, m; the edge that it tips over lies half as far out. */
export const LEG_RADIUS_M = 0.5;
/** One bag, kg. */
export const SANDBAG_KG = 7;

/**
 * Mass at the foot of a stand so that a side push and the overhang together don't tip it: (m + bag) g R / 2 = F h +
 * m1 g d. kg; 0 when it stands by itself.
 */
export function ballastKg({ massKg, heightM, overhangKg, overhangM }: StandLoad): number {
  const tipping = SIDE_PUSH_N * heightM + overhangKg * GRAVITY_M_PER_S2 * overhangM;
  return Math.max(0, tipping / (GRAVITY_M_PER_S2 * (LEG_RADIUS_M / 2)) - massKg);
}

/** Whole bags; every stand on a set gets one at least (common practice, no source). */
export const sandbagCount = (load: StandLoad): number => Math.max(1, Math.ceil(ballastKg(load) / SANDBAG_KG - 1e-9));
