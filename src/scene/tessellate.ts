import type { AzimuthRange, QuadShape, RevolvedArcShape, RevolvedLineShape, Shape } from '../core/shape.ts';
import { add, cross, normalize, type Vec3 } from '../core/vec3.ts';

/** Triangles in the shape's local space; `normals` are those of the exact surface, toward its front. */
export interface Tessellation {
  /** n x 3, metres. */
  readonly positionsM: Float32Array;
  /** n x 3, unit. */
  readonly normals: Float32Array;
  /** m x 3; each triangle runs counter-clockwise seen from the front. */
  readonly indices: Uint32Array;
}

export interface TessellationOptions {
  /** Largest step round the axis. The default gives 64 sides to a full turn. */
  readonly turnStepRad?: number;
  /** Largest step along a profile arc. */
  readonly arcStepRad?: number;
}

const DEFAULT_TURN_STEP_RAD = Math.PI / 32;
const DEFAULT_ARC_STEP_RAD = Math.PI / 16;

/**
 * Triangles of one shape for showing, not for tracing. Steps depend on angles alone, so neighbouring pieces of one
 * turned body meet vertex to vertex. Triangles that vanish on the axis are left out.
 */
export function tessellate(shape: Shape, options: TessellationOptions = {}): Tessellation {
  switch (shape.type) {
    case 'quad':
      return tessellateQuad(shape);
    case 'mesh':
      return {
        positionsM: shape.positionsM,
        normals: shape.normals ?? facetNormals(shape.positionsM, shape.indices),
        indices: shape.indices,
      };
    case 'revolvedLine':
    case 'revolvedArc':
      return tessellateTurned(profileVertices(shape, options.arcStepRad ?? DEFAULT_ARC_STEP_RAD), {
        azimuth: shape.azimuth,
        stepRad: options.turnStepRad ?? DEFAULT_TURN_STEP_RAD,
      });
  }
}

function tessellateQuad({ originM: o, edgeUM: u, edgeVM: v }: QuadShape): Tessellation {
  const n = normalize(cross(u, v));
  return {
    positionsM: Float32Array.from([o, add(o, u), add(add(o, u), v), add(o, v)].flat()),
    normals: Float32Array.from([n, n, n, n].flat()),
    indices: Uint32Array.of(0, 1, 2, 0, 2, 3),
  };
}

interface ProfileVertex {
  readonly rM: number;
  readonly yM: number;
  readonly normalR: number;
  readonly normalY: number;
}

function profileVertices(shape: RevolvedLineShape | RevolvedArcShape, arcStepRad: number): ProfileVertex[] {
  if (shape.type === 'revolvedLine') {
    const dr = shape.r1M - shape.r0M;
    const dy = shape.y1M - shape.y0M;
    const l = Math.hypot(dr, dy);
    const normal = { normalR: dy / l, normalY: -dr / l };
    return [
      { rM: shape.r0M, yM: shape.y0M, ...normal },
      { rM: shape.r1M, yM: shape.y1M, ...normal },
    ];
  }
  const span = shape.angle1Rad - shape.angle0Rad;
  const steps = Math.max(1, Math.ceil(Math.abs(span) / arcStepRad - 1e-9));
  const side = span >= 0 ? 1 : -1;
  return Array.from({ length: steps + 1 }, (_, i): ProfileVertex => {
    const a = shape.angle0Rad + (span * i) / steps;
    const c = Math.cos(a);
    const s = Math.sin(a);
    const rM = shape.centreRM + shape.radiusM * c;
    return {
      rM: rM < 1e-12 ? 0 : rM,
      yM: shape.centreYM + shape.radiusM * s,
      normalR: c * side,
      normalY: s * side,
    };
  });
}

function tessellateTurned(
  profile: readonly ProfileVertex[],
  turn: { readonly azimuth: AzimuthRange | undefined; readonly stepRad: number },
): Tessellation {
  const startRad = turn.azimuth?.startRad ?? 0;
  const spanRad = turn.azimuth ? turn.azimuth.endRad - startRad : 2 * Math.PI;
  const sides = Math.max(1, Math.ceil(spanRad / turn.stepRad - 1e-9));
  const closed = spanRad > 2 * Math.PI - 1e-9;
  const positions: number[] = [];
  const normals: number[] = [];
  const indices: number[] = [];
  for (let j = 0; j <= sides; j++) {
    // The last column of a full turn is the first again, to the bit.
    const phi = startRad + (closed && j === sides ? 0 : (spanRad * j) / sides);
    const c = Math.cos(phi);
    const s = Math.sin(phi);
    for (const v of profile) {
      positions.push(v.rM * c, v.yM, v.rM * s);
      normals.push(v.normalR * c, v.normalY, v.normalR * s);
    }
  }
  const rows = profile.length;
  for (let j = 0; j < sides; j++) {
    for (let i = 0; i + 1 < rows; i++) {
      const here = j * rows + i;
      const beside = here + rows;
      // Front: (along the profile) x (round the axis) is the normal on the right hand of the walk.
      if (profile[i + 1].rM > 0) indices.push(here, here + 1, beside + 1);
      if (profile[i].rM > 0) indices.push(here, beside + 1, beside);
    }
  }
  return {
    positionsM: Float32Array.from(positions),
    normals: Float32Array.from(normals),
    indices: Uint32Array.from(indices),
  };
}

function facetNormals(positionsM: Float32Array, indices: Uint32Array): Float32Array {
  const sums = new Float64Array(positionsM.length);
  const at = (i: number): Vec3 => [positionsM[3 * i], positionsM[3 * i + 1], positionsM[3 * i + 2]];
  for (let k = 0; k < indices.length; k += 3) {
    const a = at(indices[k]);
    const b = at(indices[k + 1]);
    const c = at(indices[k + 2]);
    // Not made unit: larger triangles weigh more at a shared vertex.
    const n = cross([b[0] - a[0], b[1] - a[1], b[2] - a[2]], [c[0] - a[0], c[1] - a[1], c[2] - a[2]]);
    for (const i of [indices[k], indices[k + 1], indices[k + 2]]) for (let d = 0; d < 3; d++) sums[3 * i + d] += n[d];
  }
  const normals = new Float32Array(positionsM.length);
  for (let i = 0; i < sums.length; i += 3) normals.set(normalize([sums[i], sums[i + 1], sums[i + 2]]), i);
  return normals;
}
