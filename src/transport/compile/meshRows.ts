import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import { cross, length, sub, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';

/** Numbers of a triangle: corner, edge, edge, world, metres. */
export const TRIANGLE_WORDS = 9;
export const BOX_WORDS = 6;
const LEAST_DOUBLE_AREA_M2 = 1e-14;

/** A mesh as its triangles are laid out, without its place in the world's tables. */
export interface MeshRows {
  readonly count: number;
  /** count x TRIANGLE_WORDS. */
  readonly triangles: Float64Array;
  /** count x BOX_WORDS: min xyz, max xyz. */
  readonly boxes: Float64Array;
  /** count x 9, world; null for a flat-faced mesh. */
  readonly normals: Float64Array | null;
}

/** A surface never changes once it is built, so its triangles hold as long as it does. */
const known = new WeakMap<OpticalSurface, MeshRows>();

/** Triangles of a surface that is a mesh; those without area are left out. */
export function meshRowsOf(surface: OpticalSurface): MeshRows {
  const kept = known.get(surface);
  if (kept) return kept;
  const rows = layTriangles(surface);
  known.set(surface, rows);
  return rows;
}

function layTriangles({ shape, worldFromLocal }: OpticalSurface): MeshRows {
  if (shape.type !== 'mesh')
    return { count: 0, triangles: new Float64Array(), boxes: new Float64Array(), normals: null };
  const { indices, positionsM, normals: own } = shape;
  const most = Math.floor(indices.length / 3);
  const triangles = new Float64Array(most * TRIANGLE_WORDS);
  const boxes = new Float64Array(most * BOX_WORDS);
  const normals = own ? new Float64Array(most * 9) : null;
  const corner = (k: number): Vec3 => {
    const j = indices[k] * 3;
    return applyToPoint(worldFromLocal, [positionsM[j], positionsM[j + 1], positionsM[j + 2]]);
  };
  let count = 0;
  for (let i = 0; i + 2 < indices.length; i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    const u = sub(b, a);
    const v = sub(c, a);
    if (length(cross(u, v)) < LEAST_DOUBLE_AREA_M2) continue;
    for (let k = 0; k < 3; k++) {
      triangles[count * TRIANGLE_WORDS + k] = a[k];
      triangles[count * TRIANGLE_WORDS + 3 + k] = u[k];
      triangles[count * TRIANGLE_WORDS + 6 + k] = v[k];
      boxes[count * BOX_WORDS + k] = Math.min(a[k], b[k], c[k]);
      boxes[count * BOX_WORDS + 3 + k] = Math.max(a[k], b[k], c[k]);
    }
    if (own && normals) {
      for (let k = 0; k < 3; k++) {
        const j = indices[i + k] * 3;
        normals.set(applyToDirection(worldFromLocal, [own[j], own[j + 1], own[j + 2]]), count * 9 + k * 3);
      }
    }
    count++;
  }
  return {
    count,
    triangles: triangles.subarray(0, count * TRIANGLE_WORDS),
    boxes: boxes.subarray(0, count * BOX_WORDS),
    normals: normals ? normals.subarray(0, count * 9) : null,
  };
}
