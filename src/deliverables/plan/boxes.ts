/** A box on paper, mm, sides along the paper's. */
export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export const isInside = (inner: Box, outer: Box): boolean =>
  inner.x0 >= outer.x0 && inner.x1 <= outer.x1 && inner.y0 >= outer.y0 && inner.y1 <= outer.y1;

/** Area that two boxes share, mm2. */
export const sharedAreaMm2 = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0)) * Math.max(0, Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0));

export const growBox = (box: Box, byMm: number): Box => ({
  x0: box.x0 - byMm,
  y0: box.y0 - byMm,
  x1: box.x1 + byMm,
  y1: box.y1 + byMm,
});
