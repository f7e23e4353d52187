import type { MeshShape } from '../../core/shape.ts';
import { add, cross, normalize, sub, type Vec3 } from '../../core/vec3.ts';

/** Gathers triangles of one surface. Corners are shared where the same number is used twice. */
export interface MeshBuilder {
  /** Adds a corner and gives its number. */
  corner(p: Vec3): number;
  /** Front where the corners run counter-clockwise. */
  triangle(a: number, b: number, c: number): void;
  quad(a: number, b: number, c: number, d: number): void;
  readonly triangleCount: () => number;
  /** Smooth meshes get normals averaged by area; else each triangle is flat. */
  build(look: 'smooth' | 'flat'): MeshShape;
}

export function createMeshBuilder(): MeshBuilder {
  const points: Vec3[] = [];
  const indices: number[] = [];
  return {
    corner(p) {
      points.push(p);
      return points.length - 1;
    },
    triangle(a, b, c) {
      indices.push(a, b, c);
    },
    quad(a, b, c, d) {
      indices.push(a, b, c, a, c, d);
    },
    triangleCount: () => indices.length / 3,
    build(look) {
      const shape = {
        type: 'mesh',
        positionsM: Float32Array.from(points.flat()),
        indices: Uint32Array.from(indices),
      } as const;
      return look === 'flat' ? shape : { ...shape, normals: smoothNormals(points, indices) };
    },
  };
}

function smoothNormals(points: readonly Vec3[], indices: readonly number[]): Float32Array {
  const sums: Vec3[] = points.map(() => [0, 0, 0]);
  for (let k = 0; k < indices.length; k += 3) {
    const [a, b, c] = [indices[k], indices[k + 1], indices[k + 2]];
    const n = cross(sub(points[b], points[a]), sub(points[c], points[a]));
    for (const i of [a, b, c]) sums[i] = add(sums[i], n);
  }
  return Float32Array.from(sums.flatMap((n) => normalize(n)));
}

/** A sheet of (columns + 1) x (rows + 1) corners at f(u, v), u and v in 0..1; front where u x v points. */
export function gridMesh(columns: number, rows: number, f: (u: number, v: number) => Vec3): MeshShape {
  const mesh = createMeshBuilder();
  const at: number[][] = [];
  for (let i = 0; i <= columns; i++) {
    at.push([]);
    for (let j = 0; j <= rows; j++) at[i].push(mesh.corner(f(i / columns, j / rows)));
  }
  for (let i = 0; i < columns; i++)
    for (let j = 0; j < rows; j++) mesh.quad(at[i][j], at[i + 1][j], at[i + 1][j + 1], at[i][j + 1]);
  return mesh.build('smooth');
}
