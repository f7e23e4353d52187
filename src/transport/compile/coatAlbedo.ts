import { dielectricReflectance, ggxMasking, ggxShadowing, sampleVisibleNormal } from '../kernels/microfacet.ts';

const STEPS = 48;

/**
 * Share of light from a direction that a rough dielectric coat sends back by one bounce off its facets: the integral of
 * F G2/G1 over visible normals, by a midpoint rule (48 x 48).
 *
 * @param cosO cosine of the direction against the normal, 0..1
 * @param alpha GGX roughness, > 0
 * @param index refractive index of the coat
 */
export function coatDirectionalAlbedo(cosO: number, alpha: number, index: number): number {
  const cos = Math.max(cosO, 1e-4);
  const vx = Math.sqrt(1 - cos * cos);
  const h = new Float64Array(3);
  let sum = 0;
  for (let i = 0; i < STEPS; i++)
    for (let j = 0; j < STEPS; j++) {
      sampleVisibleNormal(vx, 0, cos, alpha, (i + 0.5) / STEPS, (j + 0.5) / STEPS, h);
      const vh = vx * h[0] + cos * h[2];
      const cosI = 2 * vh * h[2] - cos;
      if (cosI <= 0 || vh <= 0) continue;
      sum += (dielectricReflectance(vh, index) * ggxShadowing(cos, cosI, alpha)) / ggxMasking(cos, alpha);
    }
  return sum / (STEPS * STEPS);
}

/** Tables already worked out, by coat; a set has a handful, and is compiled anew for every move. */
const known = new Map<string, readonly number[]>();
const MOST_KNOWN = 64;

/** `coatDirectionalAlbedo` at `size` cosines from 0 to 1. */
export function coatAlbedoTable(alpha: number, index: number, size: number): readonly number[] {
  const key = `${alpha} ${index} ${size}`;
  const kept = known.get(key);
  if (kept) return kept;
  const table = Array.from({ length: size }, (_, i) => coatDirectionalAlbedo(i / (size - 1), alpha, index));
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, table);
  return table;
}
