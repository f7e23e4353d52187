import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import type { PlacedShape } from '../../core/shape.ts';
import { cross, dot, length, sub, type Vec3 } from '../../core/vec3.ts';
import { tessellate } from '../../scene/tessellate.ts';

/** Triangles in the world, counter-clockwise from their front. */
export interface Triangles {
  readonly positionsM: readonly number[];
  readonly normals: readonly number[];
  readonly indices: readonly number[];
}

/** Along a profile as finely as round the axis, so that the rounded edges of a box meet its corners vertex to vertex. */
const ARC_STEP_RAD = Math.PI / 32;

/** Triangles of placed shapes; `flipped` ones turn their other side to the front. */
export function trianglesOf(parts: readonly { readonly placed: PlacedShape; readonly flipped: boolean }[]): Triangles {
  const positionsM: number[] = [];
  const normals: number[] = [];
  const indices: number[] = [];
  for (const { placed, flipped } of parts) {
    const mesh = tessellate(placed.shape, { arcStepRad: ARC_STEP_RAD });
    const first = positionsM.length / 3;
    const sign = flipped ? -1 : 1;
    for (let i = 0; i < mesh.positionsM.length; i += 3) {
      const at = (a: Float32Array): Vec3 => [a[i], a[i + 1], a[i + 2]];
      positionsM.push(...applyToPoint(placed.worldFromLocal, at(mesh.positionsM)));
      const n = applyToDirection(placed.worldFromLocal, at(mesh.normals));
      const l = length(n) * sign;
      normals.push(n[0] / l, n[1] / l, n[2] / l);
    }
    for (let t = 0; t < mesh.indices.length; t += 3) {
      const [a, b, c] = [mesh.indices[t], mesh.indices[t + 1], mesh.indices[t + 2]];
      if (flipped) indices.push(first + a, first + c, first + b);
      else indices.push(first + a, first + b, first + c);
    }
  }
  return { positionsM, normals, indices };
}

/** Mean length of chords through a closed body, 4 V / S (Cauchy), m. */
export function meanChordM({ positionsM, indices }: Triangles): number {
  let volume = 0;
  let area = 0;
  const at = (i: number): Vec3 => [positionsM[3 * i], positionsM[3 * i + 1], positionsM[3 * i + 2]];
  const origin = at(0);
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [at(indices[t]), at(indices[t + 1]), at(indices[t + 2])];
    const normal = cross(sub(b, a), sub(c, a));
    area += length(normal) / 2;
    volume += dot(sub(a, origin), normal) / 6;
  }
  return area > 0 ? (4 * Math.abs(volume)) / area : 0;
}
