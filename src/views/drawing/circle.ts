import type { SheetPoint } from './projection.ts';

/** Sides of a drawn circle: it misses one of 0.1 m radius by 0.05 mm. */
const CIRCLE_SIDES = 96;

export const circle = (centre: SheetPoint, radiusM: number): SheetPoint[] =>
  Array.from({ length: CIRCLE_SIDES }, (_, i): SheetPoint => {
    const a = (2 * Math.PI * i) / CIRCLE_SIDES;
    return [centre[0] + radiusM * Math.cos(a), centre[1] + radiusM * Math.sin(a)];
  });
