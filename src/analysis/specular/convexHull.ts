/** A point on a drawing. */
export type Point2 = readonly [number, number];

/** Corners of the convex hull, counter-clockwise, none on a straight line (A. M. Andrew's monotone chain, 1979). */
export function convexHull(points: readonly Point2[]): Point2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const chain = (run: readonly Point2[]): Point2[] => {
    const kept: Point2[] = [];
    for (const p of run) {
      while (kept.length >= 2 && turn(kept[kept.length - 2], kept[kept.length - 1], p) <= 0) kept.pop();
      kept.push(p);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

const turn = (o: Point2, a: Point2, b: Point2): number => (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
