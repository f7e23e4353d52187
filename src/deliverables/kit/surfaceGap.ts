import { applyToPoint } from '../../core/rigid.ts';
import type { PlacedShape } from '../../core/shape.ts';
import { addScaled, distance, dot, sub, type Vec3 } from '../../core/vec3.ts';
import { boundsOfPoints, boundsOfShape } from '../../scene/bounds.ts';
import type { Bounds } from '../../scene/setModel.ts';
import { tessellate } from '../../scene/tessellate.ts';

/**
 * Least distance between two bodies, from the corners of each one's triangles to the triangles of the other: exact for a
 * corner against a face, a little too large for two edges that cross. `withinM` when they are farther apart than that.
 */
export function gapBetweenM(a: readonly PlacedShape[], b: readonly PlacedShape[], withinM: number): number {
  let least = withinM;
  for (const one of a) {
    for (const other of b) {
      if (gapOfBounds(boundsOfShape(one), boundsOfShape(other)) >= least) continue;
      const [p, q] = [meshOf(one), meshOf(other)];
      least = Math.min(least, cornersToFaces(p, q, least), cornersToFaces(q, p, least));
    }
  }
  return least;
}

type Triangle = readonly [Vec3, Vec3, Vec3];

interface WorldMesh {
  readonly corners: readonly Vec3[];
  readonly triangles: readonly { readonly corners: Triangle; readonly bounds: Bounds }[];
}

function meshOf({ shape, worldFromLocal }: PlacedShape): WorldMesh {
  const { positionsM: p, indices } = tessellate(shape);
  const corners = Array.from({ length: p.length / 3 }, (_, i) =>
    applyToPoint(worldFromLocal, [p[3 * i], p[3 * i + 1], p[3 * i + 2]]),
  );
  const triangles = Array.from({ length: indices.length / 3 }, (_, t) => {
    const own: Triangle = [corners[indices[3 * t]], corners[indices[3 * t + 1]], corners[indices[3 * t + 2]]];
    return { corners: own, bounds: boundsOfPoints(own) };
  });
  return { corners, triangles };
}

function cornersToFaces({ corners }: WorldMesh, { triangles }: WorldMesh, mostM: number): number {
  let least = mostM;
  for (const corner of corners) {
    for (const triangle of triangles) {
      if (gapOfBounds({ minM: corner, maxM: corner }, triangle.bounds) >= least) continue;
      least = Math.min(least, distance(corner, closestOnTriangle(corner, triangle.corners)));
    }
  }
  return least;
}

/** Nearest point of a triangle, by Voronoi regions. Source: C. Ericson, Real-Time Collision Detection (2005), 5.1.5. */
export function closestOnTriangle(p: Vec3, [a, b, c]: Triangle): Vec3 {
  const ab = sub(b, a);
  const ac = sub(c, a);
  const ap = sub(p, a);
  const d1 = dot(ab, ap);
  const d2 = dot(ac, ap);
  if (d1 <= 0 && d2 <= 0) return a;
  const bp = sub(p, b);
  const d3 = dot(ab, bp);
  const d4 = dot(ac, bp);
  if (d3 >= 0 && d4 <= d3) return b;
  const vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return addScaled(a, ab, d1 / (d1 - d3));
  const cp = sub(p, c);
  const d5 = dot(ab, cp);
  const d6 = dot(ac, cp);
  if (d6 >= 0 && d5 <= d6) return c;
  const vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return addScaled(a, ac, d2 / (d2 - d6));
  const va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return addScaled(b, sub(c, b), (d4 - d3) / (d4 - d3 + (d5 - d6)));
  const denominator = 1 / (va + vb + vc);
  return addScaled(addScaled(a, ab, vb * denominator), ac, vc * denominator);
}

function gapOfBounds(a: Bounds, b: Bounds): number {
  const along = (axis: 0 | 1 | 2): number => Math.max(0, a.minM[axis] - b.maxM[axis], b.minM[axis] - a.maxM[axis]);
  return Math.hypot(along(0), along(1), along(2));
}
