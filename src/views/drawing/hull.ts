import type { SheetPoint } from './projection.ts';

/**
 * Convex hull of points on a sheet, without collinear points, in one turning sense. Fewer than three points come back
 * when all lie on a line: its two ends, or the one point.
 *
 * Andrew's monotone chain (A. M. Andrew, Information Processing Letters 9(5), 1979; from memory).
 */
export function convexHull(points: readonly SheetPoint[], toleranceM = 1e-7): SheetPoint[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const half = (ordered: readonly SheetPoint[]): SheetPoint[] => {
    const chain: SheetPoint[] = [];
    for (const p of ordered) {
      while (chain.length >= 2 && !turnsLeft(chain[chain.length - 2], chain[chain.length - 1], p, toleranceM)) {
        chain.pop();
      }
      chain.push(p);
    }
    chain.pop();
    return chain;
  };
  const hull = [...half(sorted), ...half(sorted.reverse())];
  return hull.length > 2 ? hull : [sorted[0], sorted[sorted.length - 1]];
}

/** Does p stand left of the line a to b by more than the tolerance? */
function turnsLeft(a: SheetPoint, b: SheetPoint, p: SheetPoint, toleranceM: number): boolean {
  const du = b[0] - a[0];
  const dv = b[1] - a[1];
  const area = du * (p[1] - a[1]) - dv * (p[0] - a[0]);
  return area > toleranceM * Math.max(Math.hypot(du, dv), 1e-12);
}

/** Area enclosed by a simple closed outline. */
export function polygonAreaM2(outline: readonly SheetPoint[]): number {
  let twice = 0;
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length];
    twice += p[0] * q[1] - q[0] * p[1];
  });
  return Math.abs(twice) / 2;
}
