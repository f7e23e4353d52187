import { flickerResidual } from '../../analysis/turn/motion.ts';

/** Beat of mains-driven light with the shutter, as the check of the turntable reckons it. */

/** Share of a lamp's ripple that is left in the exposure, |sinc(2 f t)|. */
export const residualRipple = (mainsHz: number, shutterS: number): number => flickerResidual(shutterS, mainsHz);

/** Shutter times that see no ripple: k / (2 f). */
export const quietShuttersS = (mainsHz: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => (i + 1) / (2 * mainsHz));
