import { type StoredMesh, storeMesh } from './storedMesh.ts';

const HALF_M = 0.03;
const TALL_M = 0.08;

/** A closed box of 6 x 8 x 6 cm on its foot: stands in until a file is brought in. */
export function sampleMesh(): StoredMesh {
  const cornersM = Float32Array.from(
    [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) => [i & 1 ? HALF_M : -HALF_M, i & 2 ? TALL_M : 0, i & 4 ? HALF_M : -HALF_M]),
  );
  const quads = [
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ];
  return storeMesh({ cornersM, triangles: Uint32Array.from(quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d])) });
}
