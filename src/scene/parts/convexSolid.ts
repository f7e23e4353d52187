import type { MeshShape } from '../../core/shape.ts';
import { add, cross, dot, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { createMeshBuilder } from './mesh.ts';

/** All points p with normal . p <= offsetM. */
export interface HalfSpace {
  readonly normal: Vec3;
  readonly offsetM: number;
}

/** A closed body with flat faces: corners, and faces counter-clockwise seen from outside. */
export interface ConvexSolid {
  readonly corners: readonly Vec3[];
  readonly faces: readonly (readonly number[])[];
}

const WELD_M = 1e-8;

/** The box of these half edges about the origin. */
export function boxSolid(half: Vec3): ConvexSolid {
  const [x, y, z] = half;
  const corners: Vec3[] = [
    [-x, -y, -z],
    [x, -y, -z],
    [x, y, -z],
    [-x, y, -z],
    [-x, -y, z],
    [x, -y, z],
    [x, y, z],
    [-x, y, z],
  ];
  return {
    corners,
    faces: [
      [0, 3, 2, 1],
      [4, 5, 6, 7],
      [0, 1, 5, 4],
      [3, 7, 6, 2],
      [0, 4, 7, 3],
      [1, 2, 6, 5],
    ],
  };
}

/** What is left of a solid inside a half space that still holds its middle; the same solid when nothing is cut. */
export function cutSolid(solid: ConvexSolid, { normal, offsetM }: HalfSpace): ConvexSolid {
  const heights = solid.corners.map((p) => dot(normal, p) - offsetM);
  if (heights.every((h) => h <= WELD_M)) return solid;
  const corners: Vec3[] = [];
  const kept = new Map<number, number>();
  const onEdge = new Map<string, number>();
  const keep = (i: number): number => {
    let at = kept.get(i);
    if (at === undefined) {
      at = corners.push(solid.corners[i]) - 1;
      kept.set(i, at);
    }
    return at;
  };
  const cross2 = (i: number, j: number): number => {
    const key = i < j ? `${i} ${j}` : `${j} ${i}`;
    let at = onEdge.get(key);
    if (at === undefined) {
      const [a, b] = i < j ? [i, j] : [j, i];
      const t = heights[a] / (heights[a] - heights[b]);
      at = corners.push(add(solid.corners[a], scale(sub(solid.corners[b], solid.corners[a]), t))) - 1;
      onEdge.set(key, at);
    }
    return at;
  };
  const faces: number[][] = [];
  // Each cut face leaves one edge of the new face, run the other way.
  const next = new Map<number, number>();
  for (const face of solid.faces) {
    const out: number[] = [];
    let leave = -1;
    let enter = -1;
    for (let k = 0; k < face.length; k++) {
      const i = face[k];
      const j = face[(k + 1) % face.length];
      const inI = heights[i] <= 0;
      const inJ = heights[j] <= 0;
      if (inI) out.push(keep(i));
      if (inI !== inJ) {
        const at = cross2(i, j);
        out.push(at);
        if (inI) leave = at;
        else enter = at;
      }
    }
    if (out.length >= 3) faces.push(out);
    if (leave >= 0 && enter >= 0) next.set(enter, leave);
  }
  const start = next.keys().next().value;
  if (start !== undefined) {
    const cap: number[] = [];
    for (let at: number | undefined = start; at !== undefined && cap.length <= next.size; at = next.get(at)) {
      if (cap.length > 0 && at === start) break;
      cap.push(at);
    }
    if (cap.length >= 3) faces.push(cap);
  }
  return { corners, faces };
}

/** Six times the volume by tetrahedra from the origin, over six. */
export function solidVolumeM3(solid: ConvexSolid): number {
  let sum = 0;
  for (const face of solid.faces) {
    for (let k = 1; k + 1 < face.length; k++) {
      sum += dot(solid.corners[face[0]], cross(solid.corners[face[k]], solid.corners[face[k + 1]]));
    }
  }
  return sum / 6;
}

/** The half spaces of its faces. */
export function facePlanes(solid: ConvexSolid): HalfSpace[] {
  return solid.faces.flatMap((face) => {
    let n: Vec3 = [0, 0, 0];
    for (let k = 1; k + 1 < face.length; k++) {
      const a = solid.corners[face[0]];
      n = add(n, cross(sub(solid.corners[face[k]], a), sub(solid.corners[face[k + 1]], a)));
    }
    if (Math.hypot(...n) < 1e-16) return [];
    const normal = normalize(n);
    return [{ normal, offsetM: dot(normal, solid.corners[face[0]]) }];
  });
}

/** Flat triangles, each face a fan from its own corners. */
export function meshOfSolid(solid: ConvexSolid): MeshShape {
  const mesh = createMeshBuilder();
  for (const p of solid.corners) mesh.corner(p);
  for (const face of solid.faces)
    for (let k = 1; k + 1 < face.length; k++) mesh.triangle(face[0], face[k], face[k + 1]);
  return mesh.build('flat');
}
