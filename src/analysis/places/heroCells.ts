import { projectPoint, rayThrough } from '../../camera/projection.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { CheckInput } from '../contracts.ts';
import type { HeroPlace, SeenCell } from '../study.ts';

/** Box of a record in the frame, cut to the frame; null where no part of it can be in it. */
export function boxInFrame(
  { view }: Pick<CheckInput, 'view'>,
  { minM, maxM }: HeroPlace['bounds'],
): { readonly u0: number; readonly u1: number; readonly v0: number; readonly v1: number } | null {
  const us: number[] = [];
  const vs: number[] = [];
  for (let k = 0; k < 8; k++) {
    const corner: Vec3 = [k & 1 ? maxM[0] : minM[0], k & 2 ? maxM[1] : minM[1], k & 4 ? maxM[2] : minM[2]];
    const at = projectPoint(view, corner);
    // A corner beside or behind the lens: nothing can be said of the box.
    if (!at) return { u0: 0, u1: 1, v0: 0, v1: 1 };
    us.push(at.u);
    vs.push(at.v);
  }
  const [u0, u1] = [Math.max(0, Math.min(...us)), Math.min(1, Math.max(...us))];
  const [v0, v1] = [Math.max(0, Math.min(...vs)), Math.min(1, Math.max(...vs))];
  return u0 < u1 && v0 < v1 ? { u0, u1, v0, v1 } : null;
}

/** Places on the hero that the lens sees, on a grid of `columns` x `rows` over its box in the frame. */
export function findHeroCells(
  input: Pick<CheckInput, 'view' | 'query' | 'set'>,
  hero: HeroPlace,
  columns: number,
  rows: number,
): SeenCell[] {
  const box = boxInFrame(input, hero.bounds);
  if (!box) return [];
  const cells: SeenCell[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const u = box.u0 + ((column + 0.5) / columns) * (box.u1 - box.u0);
      const v = box.v0 + ((row + 0.5) / rows) * (box.v1 - box.v0);
      const { originM, direction } = rayThrough(input.view, u, v);
      const hit = input.query.closestHit(originM, direction);
      if (!hit || input.set.surfaces[hit.surfaceIndex].recordId !== hero.recordId) continue;
      const { normal: n, front, pointM, surfaceIndex } = hit;
      cells.push({ u, v, pointM, normal: front ? n : [-n[0], -n[1], -n[2]], front, surfaceIndex });
    }
  }
  return cells;
}
