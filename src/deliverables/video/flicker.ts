/** Beat of mains-driven light with the shutter. */

/** sin(pi x) / (pi x). */
const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/**
 * Share of a lamp's ripple that is left in the exposure: light on mains of frequency f ripples at 2 f, and an exposure of
 * t averages it to |sinc(2 f t)|. 0 when t is a whole number of half periods. Derived.
 */
export const residualRipple = (mainsHz: number, shutterS: number): number => Math.abs(sinc(2 * mainsHz * shutterS));

/** Shutter times that see no ripple: k / (2 f). */
export const quietShuttersS = (mainsHz: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => (i + 1) / (2 * mainsHz));
