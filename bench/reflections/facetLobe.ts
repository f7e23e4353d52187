import type { World } from '../../src/transport/index.ts';
import {
  dielectricReflectance,
  ggxDensity,
  ggxMasking,
  ggxShadowing,
  sampleVisibleNormal,
} from '../../src/transport/kernels/microfacet.ts';
import { FINISH, FinishKind } from '../../src/transport/layout/schema.ts';

/** The facets alone of a rough coat or metal, without the base under a coat. Registers as in the tracer's kernels. */
export interface FacetLobe {
  /** Unit, toward where light comes from: read by `evaluate`, written by `sample`. */
  readonly into: Float64Array;
  /** f cos per channel, and the density per steradian with which `sample` draws `into`. */
  readonly value: Float64Array;
  readonly density: Float64Array;
  /** Sets the surface: finish, unit normal on the side of `out`, unit direction to the viewer, reflectance of a metal. */
  at(finish: number, normal: Float64Array, out: Float64Array, tint: Float64Array): void;
  evaluate(): boolean;
  sample(u: number, v: number): boolean;
}

/** f cos = F D G2 / (4 cos out); drawn by visible normals, density D G1 / (4 cos out) (Walter 2007, Heitz 2018). */
export function createFacetLobe(world: World): FacetLobe {
  const f = Float64Array.from(world.finishWords);
  const into = new Float64Array(3);
  const value = new Float64Array(3);
  const density = new Float64Array(1);
  const half = new Float64Array(3);
  let n: Float64Array = new Float64Array(3);
  let o: Float64Array = new Float64Array(3);
  let tint: Float64Array = new Float64Array(3);
  let [alpha, index, isMetal, cosO] = [0.1, 1.5, false, 1];
  const dotOf = (a: Float64Array, b: Float64Array): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

  const evaluate = (): boolean => {
    value.fill(0);
    density[0] = 0;
    const cosI = dotOf(into, n);
    if (cosI <= 0 || cosO <= 0) return false;
    for (let k = 0; k < 3; k++) half[k] = into[k] + o[k];
    const inverse = 1 / Math.hypot(half[0], half[1], half[2]);
    for (let k = 0; k < 3; k++) half[k] *= inverse;
    const cosHalf = dotOf(half, o);
    const shape = ggxDensity(dotOf(half, n), alpha) / (4 * cosO);
    density[0] = shape * ggxMasking(cosO, alpha);
    const shadowed = shape * ggxShadowing(cosO, cosI, alpha);
    for (let k = 0; k < 3; k++)
      value[k] =
        shadowed * (isMetal ? tint[k] + (1 - tint[k]) * (1 - cosHalf) ** 5 : dielectricReflectance(cosHalf, index));
    return density[0] > 0;
  };

  return {
    into,
    value,
    density,
    evaluate,
    at(finish, normal, out, tintRgb) {
      const at = finish * FINISH.strideWords;
      alpha = f[at + FINISH.offset.roughness];
      index = f[at + FINISH.offset.index];
      isMetal = f[at + FINISH.offset.kind] === FinishKind.metal;
      [n, o, tint] = [normal, out, tintRgb];
      cosO = dotOf(n, o);
    },
    sample(u, v) {
      // Tangent frame: Duff et al., JCGT 6(1), 2017.
      const sign = n[2] >= 0 ? 1 : -1;
      const a = -1 / (sign + n[2]);
      const b = n[0] * n[1] * a;
      const t = [1 + sign * n[0] * n[0] * a, sign * b, -sign * n[0]];
      const s = [b, sign + n[1] * n[1] * a, -n[1]];
      const vx = o[0] * t[0] + o[1] * t[1] + o[2] * t[2];
      const vy = o[0] * s[0] + o[1] * s[1] + o[2] * s[2];
      sampleVisibleNormal(vx, vy, Math.max(cosO, 1e-6), alpha, u, v, half);
      const [hx, hy, hz] = half;
      for (let k = 0; k < 3; k++) half[k] = hx * t[k] + hy * s[k] + hz * n[k];
      const twice = 2 * dotOf(half, o);
      for (let k = 0; k < 3; k++) into[k] = twice * half[k] - o[k];
      return evaluate();
    },
  };
}
