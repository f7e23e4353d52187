import type { MeshShape } from '../../../core/shape.ts';
import { add, cross, dot, length, normalize, scale, sub, type Vec3 } from '../../../core/vec3.ts';

export type LeafShape = 'broad' | 'narrow' | 'round';

/** Half width at the widest place over the length, and where along the leaf that is. */
const LEAVES: Readonly<Record<LeafShape, { readonly halfWidth: number; readonly widestAt: number }>> = {
  broad: { halfWidth: 0.24, widestAt: 0.42 },
  narrow: { halfWidth: 0.09, widestAt: 0.45 },
  round: { halfWidth: 0.42, widestAt: 0.5 },
};
const LEAF_STEPS = 6;

/** Half width over length at t in 0..1: rises to the widest place and runs out in a point. */
function halfWidthAt(shape: LeafShape, t: number): number {
  const { halfWidth, widestAt } = LEAVES[shape];
  const s = t < widestAt ? t / widestAt : (1 - t) / (1 - widestAt);
  return halfWidth * Math.sin((Math.PI / 2) * Math.min(1, s)) ** 0.8;
}

/** One-sided area of a flat leaf as it is built. */
export function leafAreaM2(shape: LeafShape, lengthM: number): number {
  let sum = 0;
  for (let i = 0; i < LEAF_STEPS; i++) {
    sum += (halfWidthAt(shape, i / LEAF_STEPS) + halfWidthAt(shape, (i + 1) / LEAF_STEPS)) / LEAF_STEPS;
  }
  return sum * lengthM ** 2;
}

/** Gathers smooth surfaces; normals are means over the triangles at each corner. */
export interface Foliage {
  corner(p: Vec3): number;
  triangle(a: number, b: number, c: number): void;
  build(): MeshShape;
}

export function createFoliage(): Foliage {
  const points: Vec3[] = [];
  const indices: number[] = [];
  return {
    corner: (p) => points.push(p) - 1,
    triangle(a, b, c) {
      indices.push(a, b, c);
    },
    build: () => ({
      type: 'mesh',
      positionsM: Float32Array.from(points.flat()),
      indices: Uint32Array.from(indices),
      normals: smoothNormals(points, indices),
    }),
  };
}

/** Unit normals at the corners, larger triangles weighing more. */
export function smoothNormals(points: readonly Vec3[], indices: readonly number[]): Float32Array {
  const sums = points.map((): [number, number, number] => [0, 0, 0]);
  for (let k = 0; k < indices.length; k += 3) {
    const [a, b, c] = [indices[k], indices[k + 1], indices[k + 2]];
    const n = cross(sub(points[b], points[a]), sub(points[c], points[a]));
    for (const i of [a, b, c]) for (const d of [0, 1, 2] as const) sums[i][d] += n[d];
  }
  return Float32Array.from(sums.flatMap((n) => normalize(n)));
}

export interface LeafPlace {
  readonly baseM: Vec3;
  /** Unit, the way that the leaf points at its base. */
  readonly along: Vec3;
  /** About the way that its upper side faces. */
  readonly facing: Vec3;
  readonly lengthM: number;
  /** How far the tip sinks away from `facing`, over the length. */
  readonly droop: number;
}

/** A thin leaf: two rows of quadrilaterals that meet in a shallow fold along the midrib. */
export function addLeaf(foliage: Foliage, shape: LeafShape, place: LeafPlace): void {
  const { baseM, along, lengthM, droop } = place;
  const across = normalize(cross(place.facing, along));
  const up = length(across) > 0.5 ? cross(along, across) : place.facing;
  const at = (t: number, side: number): Vec3 => {
    const w = halfWidthAt(shape, t) * side;
    const sink = droop * t * t;
    const forward = t * (1 - 0.25 * droop * t);
    // The fold lifts both halves by a fifth of their width.
    const rise = 0.2 * Math.abs(w) - sink;
    return add(baseM, add(scale(along, forward * lengthM), add(scale(across, w * lengthM), scale(up, rise * lengthM))));
  };
  const base = foliage.corner(at(0, 0));
  let before = [base, base, base];
  for (let i = 1; i <= LEAF_STEPS; i++) {
    const t = i / LEAF_STEPS;
    if (i === LEAF_STEPS) {
      const tip = foliage.corner(at(1, 0));
      foliage.triangle(before[0], tip, before[1]);
      foliage.triangle(before[1], tip, before[2]);
      return;
    }
    // Right, midrib, left: from above, counter-clockwise with the row before.
    const here = [foliage.corner(at(t, -1)), foliage.corner(at(t, 0)), foliage.corner(at(t, 1))];
    if (i === 1) {
      foliage.triangle(base, here[0], here[1]);
      foliage.triangle(base, here[1], here[2]);
    } else {
      for (const k of [0, 1]) {
        foliage.triangle(before[k], here[k], here[k + 1]);
        foliage.triangle(before[k], here[k + 1], before[k + 1]);
      }
    }
    before = here;
  }
}

const TUBE_SIDES = 7;

/** A closed round stem along a line of points, its radius falling from the first to the last. */
export function addStem(foliage: Foliage, line: readonly Vec3[], radius0M: number, radius1M: number): void {
  const start = normalize(sub(line[1], line[0]));
  let x: Vec3 = normalize(cross(start, Math.abs(start[1]) < 0.9 ? [0, 1, 0] : [1, 0, 0]));
  let before: number[] = [];
  line.forEach((p, i) => {
    const tangent = normalize(sub(line[Math.min(i + 1, line.length - 1)], line[Math.max(i - 1, 0)]));
    x = normalize(sub(x, scale(tangent, dot(x, tangent))));
    const y = cross(tangent, x);
    const r = radius0M + ((radius1M - radius0M) * i) / (line.length - 1);
    const ring = Array.from({ length: TUBE_SIDES }, (_, k) => {
      const phi = (2 * Math.PI * k) / TUBE_SIDES;
      return foliage.corner(add(p, add(scale(x, r * Math.cos(phi)), scale(y, r * Math.sin(phi)))));
    });
    for (let k = 0; k < TUBE_SIDES; k++) {
      const next = (k + 1) % TUBE_SIDES;
      if (i > 0) {
        foliage.triangle(before[k], before[next], ring[next]);
        foliage.triangle(before[k], ring[next], ring[k]);
      }
    }
    if (i === 0 || i === line.length - 1) {
      const middle = foliage.corner(p);
      for (let k = 0; k < TUBE_SIDES; k++) {
        const next = (k + 1) % TUBE_SIDES;
        if (i === 0) foliage.triangle(middle, ring[next], ring[k]);
        else foliage.triangle(middle, ring[k], ring[next]);
      }
    }
    before = ring;
  });
}
