import type { World } from '../contracts.ts';
import { FINISH, FinishKind, PRIMITIVE, PrimitiveKind } from '../layout/schema.ts';
import type { EmitterSampler } from './emitterSampling.ts';

/**
 * Where light is sent from the lamps on purpose: at the clear pieces of the set, which gather it into caustics. A tall piece
 * is covered by several spheres; an emitter and a sphere are chosen together by what the one could send through the other,
 * then a point on the emitter, evenly, and a direction in the cone that the sphere fills from there, evenly.
 */
export interface CausticTargets {
  /** False when the set has nothing clear, or nothing that shines on it. */
  readonly any: boolean;
  /** Rough size of the smallest piece, metres: the scale of caustic detail. */
  readonly scaleM: number;
  /** Draws a start: point and front normal in `emitters.out`, direction in `direction`. Returns the emitter. */
  sample(chooseU: number, u: number, v: number, du: number, dv: number, direction: Float64Array): number;
  /** Density of `sample` for emitter e at (x, y, z) toward unit d: 1 / (m2 sr), the choice of emitter included. */
  density(e: number, x: number, y: number, z: number, dx: number, dy: number, dz: number): number;
}

export function createCausticTargets(world: World, emitters: EmitterSampler, layerGains: Float32Array): CausticTargets {
  const direct = clearSpheres(world);
  const spheres = [...direct, ...mirrorSpheres(world, direct)];
  const targetCount = spheres.length / 4;
  const directCount = direct.length / 4;
  const s = Float64Array.from(spheres);
  const E = emitters.count;
  const chance = new Float64Array(E * targetCount);
  let total = 0;
  world.emitters.forEach((info, e) => {
    const gain = layerGains.length ? Math.max(...layerGains.slice(info.layerIndex * 3, info.layerIndex * 3 + 3)) : 1;
    for (let t = 0; t < targetCount; t++) {
      const d = [0, 1, 2].map((k) => s[t * 4 + k] - info.centreM[k]);
      const distance = Math.hypot(d[0], d[1], d[2]);
      const flat = Math.hypot(...info.normal) > 0.5;
      const cos = flat ? (d[0] * info.normal[0] + d[1] * info.normal[1] + d[2] * info.normal[2]) / distance : 1;
      // A flat emitter that the whole sphere lies behind sends it nothing.
      if (flat && cos * distance < -s[t * 4 + 3]) continue;
      for (let k = 0; k < 3; k++) emitters.leaving[k] = d[k] / distance;
      const toward = emitters.relative(e, Math.max(cos, 0.02)) * Math.max(cos, 0.02);
      const fill = Math.min(1, (s[t * 4 + 3] / distance) ** 2);
      // A fixture that is dim still gets its share of photons: its layer must stand ready.
      const share = t < directCount ? 1 : MIRRORED_SHARE;
      chance[e * targetCount + t] =
        share * info.axialLuminanceNits * info.areaM2 * (0.05 + toward) * fill * (0.02 + gain);
      total += chance[e * targetCount + t];
    }
  });
  if (total > 0) for (let i = 0; i < chance.length; i++) chance[i] /= total;

  /** Cosine of the half angle that sphere t fills from a point; -1 from inside it. */
  const coneCos = (t: number, x: number, y: number, z: number): number => {
    const dx = s[t * 4] - x;
    const dy = s[t * 4 + 1] - y;
    const dz = s[t * 4 + 2] - z;
    const r = s[t * 4 + 3];
    const sin2 = (r * r) / (dx * dx + dy * dy + dz * dz);
    return sin2 >= 1 ? -1 : Math.sqrt(1 - sin2);
  };

  return {
    any: total > 0,
    scaleM: directCount > 0 ? Math.min(...Array.from({ length: directCount }, (_, t) => s[t * 4 + 3])) : 0,
    sample(chooseU, u, v, du, dv, direction) {
      let rest = chooseU;
      let pick = 0;
      for (let i = 0; i < chance.length; i++) {
        if (chance[i] === 0) continue;
        pick = i;
        rest -= chance[i];
        if (rest < 0) break;
      }
      const e = Math.floor(pick / targetCount);
      const t = pick - e * targetCount;
      emitters.sample(e, u, v);
      const o = emitters.out;
      const x = o[0];
      const y = o[1];
      const z = o[2];
      const low = coneCos(t, x, y, z);
      const cos = 1 - du * (1 - low);
      const sin = Math.sqrt(Math.max(0, 1 - cos * cos));
      let ax = s[t * 4] - x;
      let ay = s[t * 4 + 1] - y;
      let az = s[t * 4 + 2] - z;
      const inv = 1 / (Math.hypot(ax, ay, az) + 1e-30);
      ax *= inv;
      ay *= inv;
      az *= inv;
      const sign = az >= 0 ? 1 : -1;
      const a = -1 / (sign + az);
      const b = ax * ay * a;
      const phi = 2 * Math.PI * dv;
      const c = sin * Math.cos(phi);
      const q = sin * Math.sin(phi);
      direction[0] = c * (1 + sign * ax * ax * a) + q * b + cos * ax;
      direction[1] = c * sign * b + q * (sign + ay * ay * a) + cos * ay;
      direction[2] = -c * sign * ax - q * ay + cos * az;
      return e;
    },
    density(e, x, y, z, dx, dy, dz) {
      let sum = 0;
      for (let t = 0; t < targetCount; t++) {
        const p = chance[e * targetCount + t];
        if (p === 0) continue;
        const low = coneCos(t, x, y, z);
        if (low > -1) {
          const ax = s[t * 4] - x;
          const ay = s[t * 4 + 1] - y;
          const az = s[t * 4 + 2] - z;
          if ((dx * ax + dy * ay + dz * az) / Math.hypot(ax, ay, az) < low) continue;
        }
        sum += p / (2 * Math.PI * (1 - low));
      }
      return sum / emitters.areaM2[e];
    },
  };
}

/** What a glossy base sends on of the light that meets it, about: steers only. */
const MIRRORED_SHARE = 0.15;
/** Mirrors smaller than this are left to chance. */
const MIRROR_AREA_M2 = 0.02;
const MAX_MIRRORS = 4;

/** The same spheres seen in the large flat mirrors and smooth coats of the set: light takes that way to the glass too. */
function mirrorSpheres(world: World, spheres: readonly number[]): number[] {
  const p = world.primitiveWords;
  const mirrored: number[] = [];
  let mirrors = 0;
  for (let i = 0; i < world.primitiveCount && mirrors < MAX_MIRRORS; i++) {
    const w = i * PRIMITIVE.strideWords;
    if (p[w + PRIMITIVE.offset.kind] !== PrimitiveKind.quad) continue;
    const finish = p[w + PRIMITIVE.offset.finish] * FINISH.strideWords;
    const kind = world.finishWords[finish + FINISH.offset.kind];
    const smooth = world.finishWords[finish + FINISH.offset.roughness] === 0;
    if (!(kind === FinishKind.mirror || (kind === FinishKind.gloss && smooth))) continue;
    const d = w + PRIMITIVE.offset.d0;
    const n = [
      p[d + 4] * p[d + 8] - p[d + 5] * p[d + 7],
      p[d + 5] * p[d + 6] - p[d + 3] * p[d + 8],
      p[d + 3] * p[d + 7] - p[d + 4] * p[d + 6],
    ];
    const area = Math.hypot(n[0], n[1], n[2]);
    if (area < MIRROR_AREA_M2) continue;
    let any = false;
    for (let t = 0; t < spheres.length; t += 4) {
      const height = [0, 1, 2].reduce((sum, k) => sum + ((spheres[t + k] - p[d + k]) * n[k]) / area, 0);
      if (height <= 0 || height > 1) continue;
      any = true;
      for (let k = 0; k < 3; k++) mirrored.push(spheres[t + k] - (2 * height * n[k]) / area);
      mirrored.push(spheres[t + 3]);
    }
    if (any) mirrors++;
  }
  return mirrored;
}

/** Spheres (xyz, radius) that cover the clear pieces of each record: several along a tall one. */
function clearSpheres(world: World): number[] {
  const spheres: number[] = [];
  for (const { minM, maxM } of world.clearBoxes) {
    const size = [0, 1, 2].map((k) => maxM[k] - minM[k]);
    const axis = size.indexOf(Math.max(...size));
    const across = Math.max(...size.filter((_, k) => k !== axis));
    const pieces = Math.max(1, Math.min(6, Math.round(size[axis] / Math.max(across, 1e-6))));
    const step = size[axis] / pieces;
    for (let i = 0; i < pieces; i++) {
      const centre = [0, 1, 2].map((k) => (minM[k] + maxM[k]) / 2);
      centre[axis] = minM[axis] + (i + 0.5) * step;
      const half = size.map((v, k) => (k === axis ? step / 2 : v / 2));
      spheres.push(...centre, Math.hypot(half[0], half[1], half[2]));
    }
  }
  return spheres;
}
