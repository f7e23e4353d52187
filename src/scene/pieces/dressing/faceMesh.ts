import type { MeshShape } from '../../../core/shape.ts';
import type { Vec3 } from '../../../core/vec3.ts';

/** Gathers flat polygons into one surface. Corners are not shared, so every polygon keeps its own normal. */
export interface FaceMesh {
  /** Convex, or seen whole from its first corner; front where the corners run counter-clockwise. */
  polygon(corners: readonly Vec3[]): void;
  /** The closed box between two corners, faces outward, put through `place`. */
  box(minM: Vec3, maxM: Vec3, place?: (p: Vec3) => Vec3): void;
  build(): MeshShape;
}

/** Corners of each face of a box (bits of x, y, z), counter-clockwise from outside. */
const BOX_FACES = [
  [0, 4, 6, 2],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 6, 7, 3],
  [0, 2, 3, 1],
  [4, 5, 7, 6],
] as const;

export function createFaceMesh(): FaceMesh {
  const positions: number[] = [];
  const indices: number[] = [];
  const polygon = (corners: readonly Vec3[]): void => {
    const first = positions.length / 3;
    for (const corner of corners) positions.push(...corner);
    for (let i = 2; i < corners.length; i++) indices.push(first, first + i - 1, first + i);
  };
  return {
    polygon,
    box(minM, maxM, place = (p) => p) {
      const corner = (bits: number): Vec3 =>
        place([
          (bits & 1) === 0 ? minM[0] : maxM[0],
          (bits & 2) === 0 ? minM[1] : maxM[1],
          (bits & 4) === 0 ? minM[2] : maxM[2],
        ]);
      for (const face of BOX_FACES) polygon(face.map(corner));
    },
    build: () => ({ type: 'mesh', positionsM: Float32Array.from(positions), indices: Uint32Array.from(indices) }),
  };
}
