import type { Finish } from '../../materials/finish.ts';

/** GGX alpha of the roughest, sand-blasted glass. From memory of measured ground glass: 0.3 to 0.6. */
const SAND_BLASTED_ALPHA = 0.6;

/** Finish of the outside of glass by its frost, 0..1. Half way is satin: alpha about 0.2. */
export const finishOfFrost = (frost: number): Finish => ({
  type: 'clear',
  roughness: Number((SAND_BLASTED_ALPHA * frost ** 1.5).toFixed(4)),
});
