import type { World } from '../contracts.ts';
import { PRIMITIVE, PrimitiveKind } from '../layout/schema.ts';
import type { EmitterSampler } from './emitterSampling.ts';

/**
 * Which emitter to connect a point of the path to: in proportion to a cheap estimate of what each would give there,
 * unshadowed. The estimate only steers; an emitter that could give anything has a chance above zero.
 */
export interface LightChoice {
  /** Estimates at (x, y, z) with facing normal n; `twoSided` where light may come from behind too. Returns their sum. */
  weigh(x: number, y: number, z: number, nx: number, ny: number, nz: number, twoSided: boolean): number;
  /** Emitter for u in [0, 1), after `weigh`. */
  pick(u: number): number;
  /** Chance of emitter `e`, after `weigh`. */
  chance(e: number): number;
}

/**
 * @param layerGains layers x 3: a fixture that is off or dim is seldom chosen, but never wholly left out, since its layer
 *   must stand ready for the moment it is switched on
 */
export function createLightChoice(world: World, emitters: EmitterSampler, layerGains: Float32Array): LightChoice {
  const count = emitters.count;
  const strength = new Float64Array(count);
  const radius2 = new Float64Array(count);
  const place = new Float64Array(count * 6);
  const flat = new Uint8Array(count);
  const reach = new Float64Array(count);
  let strongest = 0;
  world.emitters.forEach((e, i) => {
    const gain = layerGains.length ? Math.max(...layerGains.slice(e.layerIndex * 3, e.layerIndex * 3 + 3)) : 1;
    strength[i] = e.axialLuminanceNits * e.areaM2 * gain;
    strongest = Math.max(strongest, strength[i]);
    radius2[i] = e.areaM2 / 2;
    place.set([...e.centreM, ...e.normal], i * 6);
    flat[i] = Math.hypot(...e.normal) > 0.5 ? 1 : 0;
    reach[i] = reachOf(world, emitters.primitive[i]);
  });
  for (let i = 0; i < count; i++) strength[i] = Math.max(strength[i], strongest * 0.02, 1e-12);
  const weights = new Float64Array(count);
  const total = new Float64Array(1);
  return {
    weigh(x, y, z, nx, ny, nz, twoSided) {
      let sum = 0;
      for (let i = 0; i < count; i++) {
        const o = i * 6;
        const dx = place[o] - x;
        const dy = place[o + 1] - y;
        const dz = place[o + 2] - z;
        const d2 = dx * dx + dy * dy + dz * dz;
        let w = 0;
        // Behind a flat emitter, or with all of it below the horizon, nothing can arrive.
        const ahead = flat[i] ? -(dx * place[o + 3] + dy * place[o + 4] + dz * place[o + 5]) : 1;
        const height = dx * nx + dy * ny + dz * nz;
        if (ahead > 0 && (twoSided || height > -reach[i])) {
          const d = Math.sqrt(d2) + 1e-9;
          emitters.leaving[0] = -dx / d;
          emitters.leaving[1] = -dy / d;
          emitters.leaving[2] = -dz / d;
          const facing = flat[i] ? emitters.relative(i, ahead / d) * (ahead / d) : 1;
          const lit = twoSided ? 1 : Math.max(0, height / d);
          w = (strength[i] * (0.1 + 0.9 * Math.min(facing, 4)) * (0.1 + 0.9 * lit)) / Math.max(d2, radius2[i]);
        }
        weights[i] = w;
        sum += w;
      }
      total[0] = sum;
      return sum;
    },
    pick(u) {
      let rest = u * total[0];
      let last = 0;
      for (let i = 0; i < count; i++) {
        if (weights[i] <= 0) continue;
        last = i;
        rest -= weights[i];
        if (rest < 0) return i;
      }
      return last;
    },
    chance: (e) => (total[0] > 0 ? weights[e] / total[0] : 0),
  };
}

/** How far an emitter reaches from its centre, metres; unbounded where it does not pay to know. */
function reachOf(world: World, primitive: number): number {
  const w = primitive * PRIMITIVE.strideWords;
  const d = w + PRIMITIVE.offset.d0;
  const p = world.primitiveWords;
  if (p[w + PRIMITIVE.offset.kind] !== PrimitiveKind.quad) return Number.POSITIVE_INFINITY;
  return Math.hypot(p[d + 3], p[d + 4], p[d + 5]) / 2 + Math.hypot(p[d + 6], p[d + 7], p[d + 8]) / 2;
}
