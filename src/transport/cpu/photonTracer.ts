import type { World } from '../contracts.ts';
import { reflectRay, refractRay, unitDirection } from '../kernels/boundary.ts';
import type { CausticTargets } from '../kernels/causticTargets.ts';
import type { EmitterSampler } from '../kernels/emitterSampling.ts';
import { createInsideSet } from '../kernels/insideSet.ts';
import { createIntersector, RAY_START_M } from '../kernels/intersector.ts';
import { createMediumKernel } from '../kernels/medium.ts';
import { dielectricReflectance } from '../kernels/microfacet.ts';
import { PHOTON, type PhotonMap } from '../kernels/photonMap.ts';
import { primitiveColumn } from '../kernels/primitiveColumn.ts';
import { createPixelSampler } from '../kernels/sampler.ts';
import { createScattering } from '../kernels/scattering.ts';
import { FINISH, FinishKind } from '../layout/schema.ts';

const MAX_BOUNDARIES = 40;

/** Pixel number of the sampler that photons use, out of reach of any film's. */
const PHOTON_STREAM = 0x7fffff00;

/**
 * Sends photons from the lamps at the clear pieces, follows them through mirror-like bounces and refractions, and leaves one
 * wherever such a chain (with at least one clear boundary in it) meets a surface that scatters, or a cloudy medium.
 * That is exactly the light that paths from the lens seldom find: caustics. (H. W. Jensen, "Global Illumination using Photon
 * Maps", 1996; used here with the weights of `PathTracer`.)
 */
export function createPhotonTracer(
  world: World,
  emitters: EmitterSampler,
  targets: CausticTargets,
  seed: number,
): { trace(map: PhotonMap, pass: number, count: number): void } {
  const intersector = createIntersector(world);
  const { ray, hit, hitIndex } = intersector;
  const scattering = createScattering(world);
  const inside = createInsideSet(world);
  const media = createMediumKernel(world);
  const sampler = createPixelSampler();
  const pair = sampler.pair;
  const finishes = Float64Array.from(world.finishWords);
  const finishOf = primitiveColumn(world, 'finish');
  const frontVolume = primitiveColumn(world, 'frontVolume');
  const backVolume = primitiveColumn(world, 'backVolume');
  const direction = new Float64Array(3);

  const follow = (map: PhotonMap, layer: number, flux: number, density: number): void => {
    let fr = flux;
    let fg = flux;
    let fb = flux;
    let crossed = false;
    inside.clear();

    const leave = (x: number, y: number, z: number, nx: number, ny: number, nz: number, where: number): void => {
      const o = map.add(where);
      if (o < 0) return;
      const d = map.data;
      d[o + PHOTON.x] = x;
      d[o + PHOTON.y] = y;
      d[o + PHOTON.z] = z;
      d[o + PHOTON.dx] = ray[3];
      d[o + PHOTON.dy] = ray[4];
      d[o + PHOTON.dz] = ray[5];
      d[o + PHOTON.r] = fr;
      d[o + PHOTON.g] = fg;
      d[o + PHOTON.b] = fb;
      d[o + PHOTON.nx] = nx;
      d[o + PHOTON.ny] = ny;
      d[o + PHOTON.nz] = nz;
      d[o + PHOTON.density] = density;
    };

    for (let boundary = 0; boundary < MAX_BOUNDARIES; boundary++) {
      ray[6] = RAY_START_M;
      ray[7] = Number.POSITIVE_INFINITY;
      if (!intersector.closest()) return;
      intersector.normalAtHit();
      const t = hit[0];
      const primitive = hitIndex[0];
      const medium = inside.medium();
      if (medium >= 0) {
        sampler.next();
        const collided = media.travel(medium, t, fr, fg, fb, pair[0], pair[1]);
        fr *= media.weight[0];
        fg *= media.weight[1];
        fb *= media.weight[2];
        if (collided) {
          const d = media.collision[0];
          leave(ray[0] + d * ray[3], ray[1] + d * ray[4], ray[2] + d * ray[5], 0, 0, 0, -1 - layer);
          return;
        }
      }
      const nx = hit[1];
      const ny = hit[2];
      const nz = hit[3];
      const toward = ray[3] * nx + ray[4] * ny + ray[5] * nz;
      const front = toward < 0;
      const x = ray[0] + t * ray[3];
      const y = ray[1] + t * ray[4];
      const z = ray[2] + t * ray[5];
      let finish = finishOf[primitive];
      let shadeU = 0;
      if (scattering.isPatterned[finish] === 1) {
        sampler.next();
        shadeU = pair[0];
      }
      finish = scattering.shade(primitive, finish, x, y, z, shadeU);
      const kind = scattering.kind[finish];
      if (kind === FinishKind.clear || kind === FinishKind.frosted) {
        const from = front ? frontVolume[primitive] : backVolume[primitive];
        const to = front ? backVolume[primitive] : frontVolume[primitive];
        const beyond = inside.mediumAfter(from, to);
        const eta = media.index(beyond) / media.index(medium);
        if (beyond === medium || eta === 1) {
          ray[0] = x;
          ray[1] = y;
          ray[2] = z;
          inside.cross(from, to);
          continue;
        }
        if (kind === FinishKind.frosted) {
          // Scatters: a path from the lens connects to the lamp from here by itself.
          const side = front ? 1 : -1;
          if (crossed) leave(x, y, z, nx * side, ny * side, nz * side, layer);
          return;
        }
        crossed = true;
        sampler.next();
        if (pair[0] < dielectricReflectance(Math.abs(toward), eta)) reflectRay(ray, x, y, z, toward, nx, ny, nz);
        else {
          refractRay(ray, x, y, z, toward, nx, ny, nz, eta);
          inside.cross(from, to);
        }
        continue;
      }
      if (kind === FinishKind.mirror) {
        const o = finish * FINISH.strideWords;
        fr *= finishes[o + 1];
        fg *= finishes[o + 2];
        fb *= finishes[o + 3];
        reflectRay(ray, x, y, z, toward, nx, ny, nz);
        continue;
      }
      if (kind === FinishKind.black) return;
      const sign = front ? 1 : -1;
      if (crossed && scattering.hasLobe[finish]) leave(x, y, z, nx * sign, ny * sign, nz * sign, layer);
      // A smooth coat also sends it on, as often as a path from the lens would take that turn.
      for (let k = 0; k < 3; k++) {
        scattering.normal[k] = hit[1 + k] * sign;
        scattering.out[k] = -ray[3 + k];
      }
      const coat = scattering.coatReflectance(finish);
      if (coat === 0) return;
      const chance = coat / (coat + scattering.lobeAlbedo(finish));
      sampler.next();
      if (pair[0] >= chance) return;
      fr *= coat / chance;
      fg *= coat / chance;
      fb *= coat / chance;
      reflectRay(ray, x, y, z, toward, nx, ny, nz);
    }
  };

  return {
    trace(map, pass, count) {
      for (let i = 0; i < count; i++) {
        sampler.start(PHOTON_STREAM + pass, seed, i);
        sampler.next();
        const choose = pair[0];
        sampler.next();
        const u = pair[0];
        const v = pair[1];
        sampler.next();
        const e = targets.sample(choose, u, v, pair[0], pair[1], direction);
        const o = emitters.out;
        const cos = direction[0] * o[3] + direction[1] * o[4] + direction[2] * o[5];
        if (cos <= 1e-6) continue;
        emitters.leaving.set(direction);
        const nits = emitters.axialNits[e] * emitters.relative(e, cos);
        if (nits <= 0) continue;
        const density = targets.density(e, o[0], o[1], o[2], direction[0], direction[1], direction[2]);
        if (!(density > 0)) continue;
        ray[0] = o[0];
        ray[1] = o[1];
        ray[2] = o[2];
        ray[3] = direction[0];
        ray[4] = direction[1];
        ray[5] = direction[2];
        unitDirection(ray);
        follow(map, emitters.layer[e], (nits * cos) / (density * count), density / cos);
      }
      map.build();
    },
  };
}
