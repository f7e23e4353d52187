import type { Vec3 } from '../../core/vec3.ts';
import type { Ice, IceForm } from '../records.ts';

/** Ice at 0 C and its latent heat of fusion (CRC Handbook; from memory). */
export const ICE_DENSITY_KG_PER_M3 = 916.7;
export const ICE_LATENT_HEAT_J_PER_KG = 333_550;

/**
 * What melts ice: heat transfer coefficient (W/m2 K) and how much warmer the surroundings are (K). Textbook ranges (Incropera)
 * are 5 to 25 in still air and 100 to 1000 and more in liquid that moves; these are chosen within them, an estimate.
 */
const IN_DRINK = { transferWPerM2K: 300, warmerK: 3 } as const;
const IN_AIR = { transferWPerM2K: 10, warmerK: 22 } as const;

/**
 * How fast a flat face of melting ice draws back, m/s: h dT / (rho L). The receding-face estimate of a lumped body; a cube
 * is gone when its faces meet in the middle.
 */
export const faceRecessionMPerS = (transferWPerM2K: number, warmerK: number): number =>
  (transferWPerM2K * warmerK) / (ICE_DENSITY_KG_PER_M3 * ICE_LATENT_HEAT_J_PER_KG);

/** Edges meet the warmth from two sides: their rounding grows by this many times what a face loses. Invented. */
const EDGE_FACTOR = 2;
/** Smaller than this it is gone. */
const GONE_M = 0.002;

export interface MeltedIce {
  readonly form: IceForm;
  /** Half edges now. */
  readonly halfM: Vec3;
  readonly bevelM: number;
  /** Depth to which the corners of broken ice are struck off. */
  readonly roundedM: number;
}

/** Half edges of a fresh piece: y is the length of blocks and spears. */
export function freshHalfM(ice: Ice): Vec3 {
  const half = ice.edgeM / 2;
  switch (ice.form ?? 'cube') {
    case 'block':
      return [half, (ice.lengthM ?? 1.3 * ice.edgeM) / 2, half];
    case 'spear':
      return [half, (ice.lengthM ?? 4 * ice.edgeM) / 2, half];
    default:
      return [half, half, half];
  }
}

/** Size and rounding after meltMin minutes; undefined when all has melted. */
export function meltIce(ice: Ice, inDrink: boolean): MeltedIce | undefined {
  const { transferWPerM2K, warmerK } = inDrink ? IN_DRINK : IN_AIR;
  const lostM = faceRecessionMPerS(transferWPerM2K, warmerK) * 60 * (ice.meltMin ?? 0);
  const fresh = freshHalfM(ice);
  const halfM: Vec3 = [fresh[0] - lostM, fresh[1] - lostM, fresh[2] - lostM];
  const least = Math.min(...halfM);
  if (2 * least < GONE_M) return undefined;
  const form = ice.form ?? 'cube';
  const bevelM = form === 'sphere' ? least : Math.min(least, ice.bevelM + EDGE_FACTOR * lostM);
  const roundedM = ice.bevelM + EDGE_FACTOR * lostM;
  return { form, halfM, bevelM, roundedM };
}
