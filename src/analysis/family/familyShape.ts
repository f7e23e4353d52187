import type { Vec3 } from '../../core/vec3.ts';
import { convexHull, type Point2 } from '../specular/convexHull.ts';
import { cornerRays, type FamilyOfAngles } from './familyOfAngles.ts';

/** Which sheet of a drawing: plan (x right, z down), front elevation (x right, y up), side elevation (z right, y up). */
export type DrawingSide = 'plan' | 'front' | 'side';

/**
 * Outline of the family on a drawing, out to `reachM` beyond the surface: the hull of its corners, counter-clockwise in
 * the sheet's own axes.
 */
export function familyOnDrawing(family: FamilyOfAngles, side: DrawingSide, reachM: number): Point2[] {
  return convexHull(cornerRays(family, reachM).flatMap((ray) => ray.map((p) => onSheet(p, side))));
}

const onSheet = (p: Vec3, side: DrawingSide): Point2 =>
  side === 'plan' ? [p[0], p[2]] : side === 'front' ? [p[0], p[1]] : [p[2], p[1]];

/** Sides and far end of the family as triangles, for the set: `positionsM` n x 3 xyz, `indices` m x 3. */
export function familyMesh(
  family: FamilyOfAngles,
  reachM: number,
): { readonly positionsM: Float32Array; readonly indices: Uint32Array } {
  const rays = cornerRays(family, reachM);
  const n = rays.length;
  const indices: number[] = [];
  for (let i = 0; i < n; i++) {
    const next = (i + 1) % n;
    indices.push(i, next, n + i, next, n + next, n + i);
  }
  for (let i = 1; i + 1 < n; i++) indices.push(n, n + i, n + i + 1);
  return {
    positionsM: Float32Array.from([...rays.map(([from]) => from), ...rays.map(([, to]) => to)].flat()),
    indices: Uint32Array.from(indices),
  };
}
