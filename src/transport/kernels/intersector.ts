import type { World } from '../contracts.ts';
import { NODE, PRIMITIVE, PrimitiveKind, TRANSFORM } from '../layout/schema.ts';
import { intersectRevolvedArc, intersectRevolvedLine } from './revolved.ts';

const DATA = 12;
const TWO_PI = 2 * Math.PI;
/** Rays start this far off the surface that they leave, metres; thin glass is half a millimetre. */
export const RAY_START_M = 1e-7;

/**
 * Ray queries over a compiled World, in double precision. Registers instead of arguments keep the hot loop free of boxing:
 * write `ray` (origin xyz, unit direction xyz, tMin, tMax), call, read `hit` (t, front normal xyz) and `hitIndex[0]`.
 */
export interface Intersector {
  readonly ray: Float64Array;
  /** t, then after `normalAtHit()` the unit normal of the front side, shading-smooth for meshes. */
  readonly hit: Float64Array;
  /** Primitive that was hit. */
  readonly hitIndex: Int32Array;
  /** Surface of each primitive. */
  readonly surfaceOf: Int32Array;
  /** Nearest hit in (tMin, tMax). */
  closest(): boolean;
  /** Any hit in (tMin, tMax), primitives left out whose `skip` is not zero. */
  any(skip?: Uint8Array): boolean;
  /** Fills hit[1..3] for the last closest hit. */
  normalAtHit(): void;
}

/**
 * Transforms in double precision, their rotations made orthonormal again: 32-bit words are off by up to 6e-8, which would
 * stretch a unit direction enough to move a hit a metre away by as much, and a thin torus would shade itself.
 */
function exactTransforms(words: Float32Array): Float64Array {
  const xf = Float64Array.from(words);
  for (let o = 0; o < xf.length; o += TRANSFORM.strideWords) {
    const a = 1 / Math.hypot(xf[o], xf[o + 1], xf[o + 2]);
    for (let k = 0; k < 3; k++) xf[o + k] *= a;
    const along = xf[o] * xf[o + 3] + xf[o + 1] * xf[o + 4] + xf[o + 2] * xf[o + 5];
    for (let k = 0; k < 3; k++) xf[o + 3 + k] -= along * xf[o + k];
    const b = 1 / Math.hypot(xf[o + 3], xf[o + 4], xf[o + 5]);
    for (let k = 0; k < 3; k++) xf[o + 3 + k] *= b;
    xf[o + 6] = xf[o + 1] * xf[o + 5] - xf[o + 2] * xf[o + 4];
    xf[o + 7] = xf[o + 2] * xf[o + 3] - xf[o] * xf[o + 5];
    xf[o + 8] = xf[o] * xf[o + 4] - xf[o + 1] * xf[o + 3];
  }
  return xf;
}

export function createIntersector(world: World): Intersector {
  const n = world.primitiveCount;
  const kind = new Uint8Array(n);
  const surfaceOf = new Int32Array(n);
  const transform = new Int32Array(n);
  const normals = new Int32Array(n);
  const data = new Float64Array(n * DATA);
  for (let i = 0; i < n; i++) preparePrimitive(world, i, kind, surfaceOf, transform, normals, data);
  const xf = exactTransforms(world.transformWords);
  const nodeBox = Float64Array.from(world.nodeWords);
  const nodeCount = world.nodeWords.length / NODE.strideWords;
  const nodeFirst = Int32Array.from({ length: nodeCount }, (_, i) => world.nodeWords[i * 8 + NODE.offset.first]);
  const nodeItems = Int32Array.from({ length: nodeCount }, (_, i) => world.nodeWords[i * 8 + NODE.offset.count]);
  const normalWords = world.normalWords;

  const ray = new Float64Array(8);
  const local = new Float64Array(6);
  const hit = new Float64Array(6);
  const hitIndex = new Int32Array(1);
  const stack = new Int32Array(128);
  const stackT = new Float64Array(128);

  const toLocal = (x: number): void => {
    const o = x * TRANSFORM.strideWords;
    const px = ray[0] - xf[o + 9];
    const py = ray[1] - xf[o + 10];
    const pz = ray[2] - xf[o + 11];
    const dx = ray[3];
    const dy = ray[4];
    const dz = ray[5];
    local[0] = xf[o] * px + xf[o + 3] * py + xf[o + 6] * pz;
    local[1] = xf[o + 1] * px + xf[o + 4] * py + xf[o + 7] * pz;
    local[2] = xf[o + 2] * px + xf[o + 5] * py + xf[o + 8] * pz;
    local[3] = xf[o] * dx + xf[o + 3] * dy + xf[o + 6] * dz;
    local[4] = xf[o + 1] * dx + xf[o + 4] * dy + xf[o + 7] * dz;
    local[5] = xf[o + 2] * dx + xf[o + 5] * dy + xf[o + 8] * dz;
  };

  const skipNone = new Uint8Array(n);

  /** Traversal shared by both queries: nearest child first; stops at the first hit when `anyHit`. */
  const traverse = (anyHit: boolean, skip: Uint8Array): boolean => {
    if (nodeCount === 0) return false;
    const ox = ray[0];
    const oy = ray[1];
    const oz = ray[2];
    const ix = 1 / ray[3];
    const iy = 1 / ray[4];
    const iz = 1 / ray[5];
    const tMin = ray[6];
    let tMax = ray[7];
    let found = -1;
    let lastTransform = -2;
    let top = 0;
    let node = 0;
    let near = entry(nodeBox, 0, ox, oy, oz, ix, iy, iz, tMin, tMax);
    if (near === Number.POSITIVE_INFINITY) return false;
    for (;;) {
      const items = nodeItems[node];
      if (items === 0) {
        const a = node + 1;
        const b = nodeFirst[node];
        const ta = entry(nodeBox, a * 8, ox, oy, oz, ix, iy, iz, tMin, tMax);
        const tb = entry(nodeBox, b * 8, ox, oy, oz, ix, iy, iz, tMin, tMax);
        if (ta <= tb) {
          if (tb !== Number.POSITIVE_INFINITY) {
            stack[top] = b;
            stackT[top++] = tb;
          }
          if (ta !== Number.POSITIVE_INFINITY) {
            node = a;
            continue;
          }
        } else {
          if (ta !== Number.POSITIVE_INFINITY) {
            stack[top] = a;
            stackT[top++] = ta;
          }
          node = b;
          continue;
        }
      } else {
        const first = nodeFirst[node];
        for (let i = first; i < first + items; i++) {
          if (skip[i] !== 0) continue;
          const d = i * DATA;
          const k = kind[i];
          let t = -1;
          if (k <= PrimitiveKind.triangle) {
            const nx = data[d + 3];
            const ny = data[d + 4];
            const nz = data[d + 5];
            const px = ox - data[d];
            const py = oy - data[d + 1];
            const pz = oz - data[d + 2];
            const tt = -(px * nx + py * ny + pz * nz) / (ray[3] * nx + ray[4] * ny + ray[5] * nz);
            if (tt > tMin && tt < tMax) {
              const x = px + tt * ray[3];
              const y = py + tt * ray[4];
              const z = pz + tt * ray[5];
              const u = x * data[d + 6] + y * data[d + 7] + z * data[d + 8];
              const v = x * data[d + 9] + y * data[d + 10] + z * data[d + 11];
              if (u >= 0 && v >= 0 && (k === PrimitiveKind.quad ? u <= 1 && v <= 1 : u + v <= 1)) t = tt;
            }
          } else {
            const x = transform[i];
            if (x !== lastTransform) {
              toLocal(x);
              lastTransform = x;
            }
            t =
              k === PrimitiveKind.revolvedLine
                ? intersectRevolvedLine(local, data, d, tMin, tMax)
                : intersectRevolvedArc(local, data, d, tMin, tMax);
          }
          if (t > 0) {
            if (anyHit) return true;
            tMax = t;
            found = i;
          }
        }
      }
      for (;;) {
        if (top === 0) {
          if (found < 0) return false;
          hit[0] = tMax;
          hitIndex[0] = found;
          return true;
        }
        top--;
        if (stackT[top] < tMax) {
          node = stack[top];
          near = stackT[top];
          break;
        }
      }
    }
  };

  const normalAtHit = (): void => {
    const i = hitIndex[0];
    const d = i * DATA;
    const t = hit[0];
    const k = kind[i];
    if (k <= PrimitiveKind.triangle) {
      hit[1] = data[d + 3];
      hit[2] = data[d + 4];
      hit[3] = data[d + 5];
      if (normals[i] >= 0) smoothNormal(i, d, t);
      return;
    }
    const x = transform[i];
    toLocal(x);
    const px = local[0] + t * local[3];
    const py = local[1] + t * local[4];
    const pz = local[2] + t * local[5];
    const r = Math.hypot(px, pz) || 1e-30;
    let nr: number;
    let ny: number;
    if (k === PrimitiveKind.revolvedLine) {
      nr = data[d + 8];
      ny = data[d + 9];
    } else {
      const s = data[d + 7] / data[d + 2];
      nr = (r - data[d]) * s;
      ny = (py - data[d + 1]) * s;
    }
    const lx = (nr * px) / r;
    const lz = (nr * pz) / r;
    const o = x * TRANSFORM.strideWords;
    const wx = xf[o] * lx + xf[o + 1] * ny + xf[o + 2] * lz;
    const wy = xf[o + 3] * lx + xf[o + 4] * ny + xf[o + 5] * lz;
    const wz = xf[o + 6] * lx + xf[o + 7] * ny + xf[o + 8] * lz;
    const inv = 1 / Math.hypot(wx, wy, wz);
    hit[1] = wx * inv;
    hit[2] = wy * inv;
    hit[3] = wz * inv;
  };

  const smoothNormal = (i: number, d: number, t: number): void => {
    const x = ray[0] + t * ray[3] - data[d];
    const y = ray[1] + t * ray[4] - data[d + 1];
    const z = ray[2] + t * ray[5] - data[d + 2];
    const u = x * data[d + 6] + y * data[d + 7] + z * data[d + 8];
    const v = x * data[d + 9] + y * data[d + 10] + z * data[d + 11];
    const w = 1 - u - v;
    const o = normals[i];
    const nx = w * normalWords[o] + u * normalWords[o + 3] + v * normalWords[o + 6];
    const ny = w * normalWords[o + 1] + u * normalWords[o + 4] + v * normalWords[o + 7];
    const nz = w * normalWords[o + 2] + u * normalWords[o + 5] + v * normalWords[o + 8];
    const length = Math.hypot(nx, ny, nz);
    if (!(length > 1e-9)) return;
    hit[1] = nx / length;
    hit[2] = ny / length;
    hit[3] = nz / length;
  };

  return {
    ray,
    hit,
    hitIndex,
    surfaceOf,
    closest: () => traverse(false, skipNone),
    any: (skip = skipNone) => traverse(true, skip),
    normalAtHit,
  };
}

/** Distance at which a ray enters a box, or infinity when it misses; NaN-safe for rays in a face plane. */
function entry(
  box: Float64Array,
  at: number,
  ox: number,
  oy: number,
  oz: number,
  ix: number,
  iy: number,
  iz: number,
  tMin: number,
  tMax: number,
): number {
  const x0 = (box[at] - ox) * ix;
  const x1 = (box[at + 3] - ox) * ix;
  const y0 = (box[at + 1] - oy) * iy;
  const y1 = (box[at + 4] - oy) * iy;
  const z0 = (box[at + 2] - oz) * iz;
  const z1 = (box[at + 5] - oz) * iz;
  let near = tMin;
  let far = tMax;
  let low = Math.min(x0, x1);
  let high = Math.max(x0, x1);
  if (low > near) near = low;
  if (high < far) far = high;
  low = Math.min(y0, y1);
  high = Math.max(y0, y1);
  if (low > near) near = low;
  if (high < far) far = high;
  low = Math.min(z0, z1);
  high = Math.max(z0, z1);
  if (low > near) near = low;
  if (high < far) far = high;
  return near <= far * (1 + 1e-12) ? near : Number.POSITIVE_INFINITY;
}

function preparePrimitive(
  world: World,
  i: number,
  kind: Uint8Array,
  surfaceOf: Int32Array,
  transform: Int32Array,
  normals: Int32Array,
  data: Float64Array,
): void {
  const words = world.primitiveWords;
  const w = i * PRIMITIVE.strideWords;
  const d = i * DATA;
  const at = PRIMITIVE.offset;
  kind[i] = words[w + at.kind];
  surfaceOf[i] = words[w + at.surface];
  transform[i] = words[w + at.transform];
  normals[i] = words[w + at.normals];
  const value = (k: number): number => words[w + at.d0 + k];
  if (kind[i] <= PrimitiveKind.triangle) {
    const [ux, uy, uz] = [value(3), value(4), value(5)];
    const [vx, vy, vz] = [value(6), value(7), value(8)];
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const area = Math.hypot(nx, ny, nz) || 1e-30;
    const [n0, n1, n2] = [nx / area, ny / area, nz / area];
    // Dual basis: u = p . (V x N) / area, v = p . (N x U) / area.
    data.set(
      [
        value(0),
        value(1),
        value(2),
        n0,
        n1,
        n2,
        (vy * n2 - vz * n1) / area,
        (vz * n0 - vx * n2) / area,
        (vx * n1 - vy * n0) / area,
        (n1 * uz - n2 * uy) / area,
        (n2 * ux - n0 * uz) / area,
        (n0 * uy - n1 * ux) / area,
      ],
      d,
    );
    return;
  }
  if (kind[i] === PrimitiveKind.revolvedLine) {
    const [r0, y0, r1, y1] = [value(0), value(1), value(2), value(3)];
    const dr = r1 - r0;
    const dy = y1 - y0;
    const length = Math.hypot(dr, dy) || 1e-30;
    const flat = Math.abs(dy) < 1e-9 ? 1 : 0;
    data.set([r0, y0, r1, y1, value(4), fullOr(value(5)), flat ? 0 : dr / dy, flat, dy / length, -dr / length], d);
    return;
  }
  const [a0, a1] = [value(3), value(4)];
  data.set(
    [value(0), value(1), value(2), Math.min(a0, a1), Math.abs(a1 - a0), value(5), fullOr(value(6)), a1 > a0 ? 1 : -1],
    d,
  );
}

/** Spans that are a full turn in single precision are one exactly. */
const fullOr = (span: number): number => (span > TWO_PI - 1e-6 ? TWO_PI : span);
