import type { World } from '../contracts.ts';
import { PRIMITIVE, PrimitiveKind } from '../layout/schema.ts';

/** A path leaves a scattering surface toward a guide this often, where there are any. */
export const GUIDE_CHANCE = 0.3;

/**
 * Bounce cards and diffusion frames: second sources that a path would seldom find by chance. A share of the directions is
 * sampled toward them, and their density joins that of the surface, so nothing is counted twice.
 */
export interface Guides {
  readonly count: number;
  /** Unit direction from (x, y, z) to a uniform point of a uniformly chosen guide, into `out`. */
  sample(x: number, y: number, z: number, choose: number, u: number, v: number, out: Float64Array): void;
  /** Density of that over solid angle, 1/sr, for unit direction d. */
  density(x: number, y: number, z: number, dx: number, dy: number, dz: number): number;
}

export function createGuides(world: World): Guides {
  const p = world.primitiveWords;
  const quads: number[][] = [];
  for (let i = 0; i < world.primitiveCount; i++) {
    const w = i * PRIMITIVE.strideWords;
    if (p[w + PRIMITIVE.offset.kind] !== PrimitiveKind.quad) continue;
    if (!world.surfaceNames[p[w + PRIMITIVE.offset.surface]].secondarySource) continue;
    const d = w + PRIMITIVE.offset.d0;
    const c = Array.from(p.subarray(d, d + 9));
    const n = [c[4] * c[8] - c[5] * c[7], c[5] * c[6] - c[3] * c[8], c[3] * c[7] - c[4] * c[6]];
    const area = Math.hypot(n[0], n[1], n[2]);
    // A card's thin edges are not worth a direction.
    if (Math.min(Math.hypot(c[3], c[4], c[5]), Math.hypot(c[6], c[7], c[8])) < 0.02 || area < 1e-4) continue;
    quads.push([...c, n[0] / area, n[1] / area, n[2] / area, area]);
  }
  const count = quads.length;
  const q = Float64Array.from(quads.flat());
  const S = 13;
  return {
    count,
    sample(x, y, z, choose, u, v, out) {
      const o = Math.min(count - 1, Math.floor(choose * count)) * S;
      const dx = q[o] + u * q[o + 3] + v * q[o + 6] - x;
      const dy = q[o + 1] + u * q[o + 4] + v * q[o + 7] - y;
      const dz = q[o + 2] + u * q[o + 5] + v * q[o + 8] - z;
      const inv = 1 / (Math.hypot(dx, dy, dz) + 1e-30);
      out[0] = dx * inv;
      out[1] = dy * inv;
      out[2] = dz * inv;
    },
    density(x, y, z, dx, dy, dz) {
      let sum = 0;
      for (let g = 0; g < count; g++) {
        const o = g * S;
        const cos = dx * q[o + 9] + dy * q[o + 10] + dz * q[o + 11];
        if (Math.abs(cos) < 1e-9) continue;
        const px = x - q[o];
        const py = y - q[o + 1];
        const pz = z - q[o + 2];
        const t = -(px * q[o + 9] + py * q[o + 10] + pz * q[o + 11]) / cos;
        if (t <= 0) continue;
        const hx = px + t * dx;
        const hy = py + t * dy;
        const hz = pz + t * dz;
        const uu = q[o + 3] * q[o + 3] + q[o + 4] * q[o + 4] + q[o + 5] * q[o + 5];
        const vv = q[o + 6] * q[o + 6] + q[o + 7] * q[o + 7] + q[o + 8] * q[o + 8];
        const uv = q[o + 3] * q[o + 6] + q[o + 4] * q[o + 7] + q[o + 5] * q[o + 8];
        const hu = hx * q[o + 3] + hy * q[o + 4] + hz * q[o + 5];
        const hv = hx * q[o + 6] + hy * q[o + 7] + hz * q[o + 8];
        const det = uu * vv - uv * uv;
        const a = (hu * vv - hv * uv) / det;
        const b = (hv * uu - hu * uv) / det;
        if (a < 0 || a > 1 || b < 0 || b > 1) continue;
        sum += (t * t) / (Math.abs(cos) * q[o + 12]);
      }
      return sum / count;
    },
  };
}
