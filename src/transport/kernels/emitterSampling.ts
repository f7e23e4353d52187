import type { World } from '../contracts.ts';
import { EMITTER, PRIMITIVE, PrimitiveKind, ProfileKind, TRANSFORM } from '../layout/schema.ts';

/**
 * Sampling of emitting surfaces by area, and their luminance by angle. Output registers of `sample`: 0..2 point (world, m),
 * 3..5 front normal.
 */
export interface EmitterSampler {
  readonly count: number;
  readonly out: Float64Array;
  readonly areaM2: Float64Array;
  readonly axialNits: Float64Array;
  readonly layer: Int32Array;
  readonly primitive: Int32Array;
  /** Uniform point on emitter `e`. */
  sample(e: number, u: number, v: number): void;
  /** Unit direction in which the light leaves: read by `relative` where a profile is not symmetrical about the normal. */
  readonly leaving: Float64Array;
  /** Luminance over axial luminance at `cos` of the angle between `leaving` and the front normal; 0 behind. */
  relative(e: number, cos: number): number;
}

export function createEmitterSampler(world: World): EmitterSampler {
  const count = world.emitters.length;
  const words = world.emitterWords;
  const column = (offset: number) =>
    Float64Array.from({ length: count }, (_, e) => words[e * EMITTER.strideWords + offset]);
  const at = EMITTER.offset;
  const areaM2 = column(at.area);
  const axialNits = column(at.axialNits);
  const layer = Int32Array.from(column(at.layer));
  const primitive = Int32Array.from(column(at.primitive));
  const profileKind = Int32Array.from(column(at.profileKind));
  const profileA = column(at.profileA);
  const profileB = column(at.profileB);
  const profiles = Float64Array.from(world.profileWords);
  const p = world.primitiveWords;
  const xf = world.transformWords;
  const out = new Float64Array(6);
  const leaving = new Float64Array(3);

  const toWorld = (transform: number, x: number, y: number, z: number, nx: number, ny: number, nz: number): void => {
    const o = transform * TRANSFORM.strideWords;
    for (let k = 0; k < 3; k++) {
      const r = o + 3 * k;
      out[k] = xf[r] * x + xf[r + 1] * y + xf[r + 2] * z + xf[o + 9 + k];
      out[3 + k] = xf[r] * nx + xf[r + 1] * ny + xf[r + 2] * nz;
    }
  };

  const sample = (e: number, u: number, v: number): void => {
    const w = primitive[e] * PRIMITIVE.strideWords;
    const d = w + PRIMITIVE.offset.d0;
    const kind = p[w + PRIMITIVE.offset.kind];
    if (kind === PrimitiveKind.quad) {
      for (let k = 0; k < 3; k++) out[k] = p[d + k] + u * p[d + 3 + k] + v * p[d + 6 + k];
      const nx = p[d + 4] * p[d + 8] - p[d + 5] * p[d + 7];
      const ny = p[d + 5] * p[d + 6] - p[d + 3] * p[d + 8];
      const nz = p[d + 3] * p[d + 7] - p[d + 4] * p[d + 6];
      const inv = 1 / Math.hypot(nx, ny, nz);
      out[3] = nx * inv;
      out[4] = ny * inv;
      out[5] = nz * inv;
      return;
    }
    const transform = p[w + PRIMITIVE.offset.transform];
    if (kind === PrimitiveKind.revolvedLine) {
      const [r0, y0, r1, y1] = [p[d], p[d + 1], p[d + 2], p[d + 3]];
      // Radius uniform in area: r^2 is linear in the area swept.
      const r = Math.sqrt(r0 * r0 + u * (r1 * r1 - r0 * r0));
      const s = Math.abs(r1 - r0) > 1e-12 ? (r - r0) / (r1 - r0) : u;
      const phi = p[d + 4] + v * p[d + 5];
      const c = Math.cos(phi);
      const sn = Math.sin(phi);
      const len = Math.hypot(r1 - r0, y1 - y0);
      const nr = (y1 - y0) / len;
      toWorld(transform, r * c, y0 + s * (y1 - y0), r * sn, nr * c, -(r1 - r0) / len, nr * sn);
      return;
    }
    // Arc: exact for spheres (height uniform in area); tori are sampled by rejection-free inversion of rc a + R sin a.
    const [rc, yc, radius, a0, a1] = [p[d], p[d + 1], p[d + 2], p[d + 3], p[d + 4]];
    const low = Math.min(a0, a1);
    const high = Math.max(a0, a1);
    const swept = (a: number) => rc * a + radius * Math.sin(a);
    const target = swept(low) + u * (swept(high) - swept(low));
    let a: number;
    if (rc === 0) a = Math.asin(Math.max(-1, Math.min(1, target / radius)));
    else {
      let l = low;
      let h = high;
      for (let i = 0; i < 48; i++) {
        const m = (l + h) / 2;
        if (swept(m) < target) l = m;
        else h = m;
      }
      a = (l + h) / 2;
    }
    const phi = p[d + 5] + v * p[d + 6];
    const c = Math.cos(phi);
    const sn = Math.sin(phi);
    const sign = a1 > a0 ? 1 : -1;
    const r = rc + radius * Math.cos(a);
    const nr = sign * Math.cos(a);
    toWorld(transform, r * c, yc + radius * Math.sin(a), r * sn, nr * c, sign * Math.sin(a), nr * sn);
  };

  /** Bilinear in theta and phi of `leaving`, in the luminaire's frame. */
  const measured = (at: number): number => {
    const x = profiles[at] * leaving[0] + profiles[at + 3] * leaving[1] + profiles[at + 6] * leaving[2];
    const y = profiles[at + 1] * leaving[0] + profiles[at + 4] * leaving[1] + profiles[at + 7] * leaving[2];
    const z = profiles[at + 2] * leaving[0] + profiles[at + 5] * leaving[1] + profiles[at + 8] * leaving[2];
    const thetaCount = profiles[at + 9];
    const phiCount = profiles[at + 10];
    const s = (Math.acos(Math.max(-1, Math.min(1, z))) / Math.PI) * (thetaCount - 1);
    let turn = Math.atan2(y, x) / (2 * Math.PI);
    if (turn < 0) turn += 1;
    const t = turn * (phiCount - 1);
    const i = Math.min(thetaCount - 2, Math.floor(s));
    const j = Math.min(phiCount - 2, Math.floor(t));
    const fs = s - i;
    const ft = t - j;
    const o = at + 11 + j * thetaCount + i;
    const near = profiles[o] * (1 - fs) + profiles[o + 1] * fs;
    const far = profiles[o + thetaCount] * (1 - fs) + profiles[o + thetaCount + 1] * fs;
    return near * (1 - ft) + far * ft;
  };

  const relative = (e: number, cos: number): number => {
    if (cos <= 0) return 0;
    const kind = profileKind[e];
    if (kind === ProfileKind.lambert) return 1;
    if (kind === ProfileKind.cosPower) return cos ** profileA[e];
    if (kind === ProfileKind.measured) return measured(profileA[e]);
    const steps = profileB[e] - 1;
    const x = (Math.acos(Math.min(cos, 1)) / (Math.PI / 2)) * steps;
    const i = x >= steps ? steps - 1 : Math.floor(x);
    const f = x - i;
    const o = profileA[e] + i;
    return profiles[o] * (1 - f) + profiles[o + 1] * f;
  };

  return { count, out, leaving, areaM2, axialNits, layer, primitive, sample, relative };
}
