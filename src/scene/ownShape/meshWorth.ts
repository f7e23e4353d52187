import type { MeshData } from './storedMesh.ts';

/** Corners nearer than this to each other are one: files repeat a corner for each of its normals. */
const WELD_M = 1e-6;

/** For each corner the number of the first corner in the same place. */
export function weldCorners(cornersM: Float32Array): Uint32Array {
  const first = new Map<string, number>();
  return Uint32Array.from({ length: cornersM.length / 3 }, (_, corner) => {
    const at = [0, 1, 2].map((axis) => Math.round(cornersM[3 * corner + axis] / WELD_M) + 0).join(' ');
    const known = first.get(at);
    if (known !== undefined) return known;
    first.set(at, corner);
    return corner;
  });
}

/** How many edges have no triangle, or one turned the wrong way, on their other side: 0 for a closed body. */
export function countOpenEdges({ cornersM, triangles }: MeshData): number {
  const place = weldCorners(cornersM);
  const count = cornersM.length / 3;
  // Every walk along an edge has to be met by one walk back.
  const walks = new Map<number, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((i) => place[triangles[t + i]]);
    if (new Set(corners).size < 3) continue;
    corners.forEach((from, i) => {
      const to = corners[(i + 1) % 3];
      const edge = Math.min(from, to) * count + Math.max(from, to);
      walks.set(edge, (walks.get(edge) ?? 0) + (from < to ? 1 : -1));
    });
  }
  let open = 0;
  for (const balance of walks.values()) open += Math.abs(balance);
  return open;
}

/** Volume within a closed body, m3, by the divergence theorem; negative when it is inside out. */
export function volumeM3({ cornersM: p, triangles }: MeshData): number {
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    six +=
      p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) +
      p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) +
      p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return six / 6;
}
