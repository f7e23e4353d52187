import { applyToDirection, applyToPoint } from '../../src/core/rigid.ts';
import type { PlacedShape } from '../../src/core/shape.ts';
import { cross, dot, sub, type Vec3 } from '../../src/core/vec3.ts';
import type { OpticalSurface } from '../../src/materials/surface.ts';
import { type TessellationOptions, tessellate } from '../../src/scene/tessellate.ts';

/** Brute force on triangles, on purpose nothing of the exact intersector. */
export interface Triangle {
  readonly a: Vec3;
  readonly b: Vec3;
  readonly c: Vec3;
  /** Unit normal of the exact surface at the first corner, in the world. */
  readonly normal: Vec3;
  readonly surface: number;
}

export const FINE: TessellationOptions = { turnStepRad: Math.PI / 64, arcStepRad: Math.PI / 96 };

export function trianglesOf(surfaces: readonly PlacedShape[], options: TessellationOptions = FINE): Triangle[] {
  const out: Triangle[] = [];
  surfaces.forEach(({ shape, worldFromLocal }, surface) => {
    const { positionsM: p, normals: n, indices } = tessellate(shape, options);
    const at = (i: number): Vec3 => applyToPoint(worldFromLocal, [p[3 * i], p[3 * i + 1], p[3 * i + 2]]);
    for (let k = 0; k < indices.length; k += 3) {
      const i = indices[k];
      out.push({
        a: at(i),
        b: at(indices[k + 1]),
        c: at(indices[k + 2]),
        normal: applyToDirection(worldFromLocal, [n[3 * i], n[3 * i + 1], n[3 * i + 2]]),
        surface,
      });
    }
  });
  return out;
}

/** Divergence theorem: a sixth of the sum of scalar triple products. Positive when normals point out. */
export const enclosedVolumeM3 = (triangles: readonly Triangle[]): number =>
  triangles.reduce((sum, { a, b, c }) => sum + dot(a, cross(b, c)), 0) / 6;

/** Edges that are not used exactly once in each direction, after joining corners nearer than `weldM`. */
export function openEdgeCount(triangles: readonly Triangle[], weldM = 1e-7): number {
  const ids = new Map<string, { id: number; p: Vec3 }[]>();
  let count = 0;
  const cell = (v: number) => Math.floor(v / (4 * weldM));
  const idOf = (p: Vec3): number => {
    const [x, y, z] = [cell(p[0]), cell(p[1]), cell(p[2])];
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (let k = -1; k <= 1; k++) {
          for (const known of ids.get(`${x + i} ${y + j} ${z + k}`) ?? []) {
            if (Math.hypot(...sub(known.p, p)) < weldM) return known.id;
          }
        }
      }
    }
    const key = `${x} ${y} ${z}`;
    ids.set(key, [...(ids.get(key) ?? []), { id: count, p }]);
    return count++;
  };
  const edges = new Map<string, number>();
  const use = (from: number, to: number) => {
    const key = from < to ? `${from} ${to}` : `${to} ${from}`;
    edges.set(key, (edges.get(key) ?? 0) + (from < to ? 1 : -1));
  };
  for (const { a, b, c } of triangles) {
    const [i, j, k] = [idOf(a), idOf(b), idOf(c)];
    if (i === j || j === k || k === i) continue;
    use(i, j);
    use(j, k);
    use(k, i);
  }
  return [...edges.values()].filter((balance) => balance !== 0).length;
}

export interface Crossing {
  readonly tM: number;
  readonly surface: number;
  /** True when the ray meets the front, the side that the normal points to. */
  readonly front: boolean;
}

/** All crossings of a ray with triangles, in order (Moller and Trumbore, Journal of Graphics Tools 2(1), 1997). */
export function crossingsAlong(triangles: readonly Triangle[], origin: Vec3, direction: Vec3): Crossing[] {
  const found: Crossing[] = [];
  for (const { a, b, c, surface } of triangles) {
    const e1 = sub(b, a);
    const e2 = sub(c, a);
    const p = cross(direction, e2);
    const det = dot(e1, p);
    if (Math.abs(det) < 1e-18) continue;
    const s = sub(origin, a);
    const u = dot(s, p) / det;
    if (u < 0 || u > 1) continue;
    const q = cross(s, e1);
    const v = dot(direction, q) / det;
    if (v < 0 || u + v > 1) continue;
    const tM = dot(e2, q) / det;
    if (tM > 0) found.push({ tM, surface, front: det > 0 });
  }
  return found.sort((x, y) => x.tM - y.tM);
}

/** Names of the media that a ray passes, air first and last; throws when a surface contradicts where the ray is. */
export function mediaAlong(surfaces: readonly OpticalSurface[], crossings: readonly Crossing[]): string[] {
  const inside = new Set<string>();
  const media: string[] = ['air'];
  for (const { surface, front } of crossings) {
    const s = surfaces[surface];
    const from = front ? s.frontVolume : s.backVolume;
    const to = front ? s.backVolume : s.frontVolume;
    if (from !== undefined && !inside.delete(from)) throw new Error(`left ${from} at '${s.role}' without being in it`);
    if (to !== undefined) {
      if (inside.has(to)) throw new Error(`entered ${to} at '${s.role}' twice`);
      inside.add(to);
    }
    media.push(to ?? [...inside].at(-1) ?? 'air');
  }
  if (inside.size > 0) throw new Error(`still in ${[...inside].join(', ')} at the end`);
  return media;
}

/** A chord through a ball round `centre`, from outside it, seeded. */
export function randomChord(random: () => number, centre: Vec3, radiusM: number): { origin: Vec3; direction: Vec3 } {
  const onSphere = (): Vec3 => {
    const y = 2 * random() - 1;
    const phi = 2 * Math.PI * random();
    const r = Math.sqrt(1 - y * y);
    return [r * Math.cos(phi), y, r * Math.sin(phi)];
  };
  const from = onSphere();
  const to = onSphere();
  const origin: Vec3 = [centre[0] + from[0] * radiusM, centre[1] + from[1] * radiusM, centre[2] + from[2] * radiusM];
  // Toward somewhere near the middle, so that most chords meet the thing.
  const target: Vec3 = [
    centre[0] + to[0] * radiusM * 0.4,
    centre[1] + to[1] * radiusM * 0.4,
    centre[2] + to[2] * radiusM * 0.4,
  ];
  const d = sub(target, origin);
  const l = Math.hypot(...d);
  return { origin, direction: [d[0] / l, d[1] / l, d[2] / l] };
}
