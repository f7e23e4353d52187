import type { MeshShape } from '../../core/shape.ts';
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
  for (let f = 0; f < faces; f++) {
    const [a, b, c] = [0, 1, 2].map((i) => 3 * triangles[3 * f + i]);
    const u = [0, 1, 2].map((i) => cornersM[b + i] - cornersM[a + i]);
    const v = [0, 1, 2].map((i) => cornersM[c + i] - cornersM[a + i]);
    area[3 * f] = u[1] * v[2] - u[2] * v[1];
    area[3 * f + 1] = u[2] * v[0] - u[0] * v[2];
    area[3 * f + 2] = u[0] * v[1] - u[1] * v[0];
  }
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
function withoutSlivers({ cornersM: p, triangles }: MeshData): Uint32Array {
  const kept: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const u = [0, 1, 2].map((i) => p[b + i] - p[a + i]);
    const v = [0, 1, 2].map((i) => p[c + i] - p[a + i]);
    const doubled = Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]);
    // A share of its longest side squared: what is a sliver does not depend on the size of the body.
    const side = Math.max(Math.hypot(...u), Math.hypot(...v));
    if (doubled > SLIVER * side * side) kept.push(triangles[t], triangles[t + 1], triangles[t + 2]);
  }
  return Uint32Array.from(kept);
}
