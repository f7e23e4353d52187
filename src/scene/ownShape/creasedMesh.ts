import type { MeshShape } from '../../core/shape.ts';
import { cross, length, sub, type Vec3 } from '../../core/vec3.ts';
import { weldCorners } from './meshWorth.ts';
import type { MeshData } from './storedMesh.ts';

/** Doubled area of a triangle over its longer side squared, under which its normal is noise of 32-bit corners. */
const SLIVER = 1e-6;

/**
 * A mesh with smooth normals, but for edges that turn by more than the crease angle: those stay sharp. Corners are split
 * where faces that meet there differ by more; each part takes the mean of its faces' normals by area.
 */
export function creasedMesh(mesh: MeshData, creaseDeg: number): MeshShape {
  const { cornersM } = mesh;
  const triangles = withoutSlivers(mesh);
  const place = weldCorners(cornersM);
  const faces = triangles.length / 3;
  const area = new Float64Array(triangles.length);
  for (let f = 0; f < faces; f++) area.set(cross(...sidesFromFirst(cornersM, triangles, 3 * f)), 3 * f);
  const facesAt = new Map<number, number[]>();
  for (let k = 0; k < triangles.length; k++) {
    const at = place[triangles[k]];
    const list = facesAt.get(at);
    if (list) list.push((k / 3) | 0);
    else facesAt.set(at, [(k / 3) | 0]);
  }
  const least = Math.cos((creaseDeg * Math.PI) / 180);
  const lengthOf = (f: number): number => Math.hypot(area[3 * f], area[3 * f + 1], area[3 * f + 2]);
  const positionsM = new Float32Array(3 * triangles.length);
  const normals = new Float32Array(3 * triangles.length);
  for (let k = 0; k < triangles.length; k++) {
    const own = (k / 3) | 0;
    const ownLength = lengthOf(own);
    const sum = [0, 0, 0];
    for (const f of facesAt.get(place[triangles[k]]) ?? []) {
      const cosine =
        (area[3 * f] * area[3 * own] + area[3 * f + 1] * area[3 * own + 1] + area[3 * f + 2] * area[3 * own + 2]) /
        (lengthOf(f) * ownLength);
      if (f === own || cosine >= least) for (let i = 0; i < 3; i++) sum[i] += area[3 * f + i];
    }
    const size = Math.hypot(sum[0], sum[1], sum[2]) || 1;
    for (let i = 0; i < 3; i++) {
      positionsM[3 * k + i] = cornersM[3 * triangles[k] + i];
      normals[3 * k + i] = sum[i] / size;
    }
  }
  return { type: 'mesh', positionsM, normals, indices: Uint32Array.from(triangles, (_, k) => k) };
}

/** Triangles with three places of their own and an area: the rest have no side to turn to the light. */
function withoutSlivers({ cornersM, triangles }: MeshData): Uint32Array {
  const kept: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [u, v] = sidesFromFirst(cornersM, triangles, t);
    // A share of its longest side squared: what is a sliver does not depend on the size of the body.
    const side = Math.max(length(u), length(v));
    if (length(cross(u, v)) > SLIVER * side * side) kept.push(triangles[t], triangles[t + 1], triangles[t + 2]);
  }
  return Uint32Array.from(kept);
}

/** The sides of a triangle from its first corner to the second and the third; `at` counts indices. */
function sidesFromFirst(cornersM: Float32Array, triangles: Uint32Array, at: number): readonly [Vec3, Vec3] {
  const corner = (i: number): Vec3 => {
    const o = 3 * triangles[at + i];
    return [cornersM[o], cornersM[o + 1], cornersM[o + 2]];
  };
  const first = corner(0);
  return [sub(corner(1), first), sub(corner(2), first)];
}
