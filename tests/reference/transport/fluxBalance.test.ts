import { describe, expect, it } from 'vitest';
import { fromAim } from '../../../src/core/rigid.ts';
import { createRandom } from '../../../src/core/rng.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { SetModel } from '../../../src/scene/setModel.ts';
import { createPhotonTracer } from '../../../src/transport/cpu/photonTracer.ts';
import { compileWorld } from '../../../src/transport/index.ts';
import { reflectRay, refractRay } from '../../../src/transport/kernels/boundary.ts';
import { createCausticTargets } from '../../../src/transport/kernels/causticTargets.ts';
import { createEmitterSampler } from '../../../src/transport/kernels/emitterSampling.ts';
import { createInsideSet } from '../../../src/transport/kernels/insideSet.ts';
import { createIntersector } from '../../../src/transport/kernels/intersector.ts';
import { createMediumKernel } from '../../../src/transport/kernels/medium.ts';
import { dielectricReflectance } from '../../../src/transport/kernels/microfacet.ts';
import { createPhotonMap, PHOTON, PHOTON_WORDS } from '../../../src/transport/kernels/photonMap.ts';
import { PRIMITIVE } from '../../../src/transport/layout/schema.ts';
import {
  BLACK,
  CLEAR,
  cylinderShapes,
  matte,
  mediumVolume,
  setOf,
  sphereShape,
  surfaceOf,
} from '../../helpers/surfaces.ts';

/*
 * Conservation of energy: a lamp inside a closed matte shell shines at a filled glass. All that leaves toward the glass
 * must come to rest on the shell or be absorbed by the drink; with a clear drink nothing may be missing.
 */
const PHOTONS = 60_000;

/** Water of a given absorption in a tumbler of glass, sharing one wall, inside a shell that catches everything. */
function glassInShell(absorptionPerM: Vec3): SetModel {
  const wall = cylinderShapes(0.035, 0, 0.12).map((shape, i) =>
    surfaceOf('glass', shape, CLEAR, { role: `outside ${i}`, backVolume: 'glass' }),
  );
  const water = cylinderShapes(0.032, 0.01, 0.11).map((shape, i) =>
    surfaceOf('glass', shape, CLEAR, { role: `water ${i}`, backVolume: 'water', frontVolume: 'glass' }),
  );
  const shell = surfaceOf('shell', sphereShape(2), matte(0.5));
  const lamp = surfaceOf(
    'lamp',
    { type: 'quad', originM: [-0.1, -0.1, 0], edgeUM: [0.2, 0, 0], edgeVM: [0, 0.2, 0] },
    BLACK,
    { emission: { fixtureId: 'lamp', axialLuminanceNits: 1000, profile: { type: 'lambert' } } },
    fromAim([-0.5, 0.35, 0.2], [0, 0.06, 0]),
  );
  return setOf(
    [...wall, ...water, shell, lamp],
    [mediumVolume('glass', 1.52, [0, 0, 0], 10), mediumVolume('water', 1.333, absorptionPerM, 20)],
  );
}

/** Flux that photons bring to the shell through the glass, per channel. */
function arriving(set: SetModel): Vec3 {
  const world = compileWorld(set, { rawColour: true });
  const gains = Float32Array.of(1, 1, 1);
  const emitters = createEmitterSampler(world);
  const targets = createCausticTargets(world, emitters, gains);
  const map = createPhotonMap(PHOTONS * 2);
  map.clear(0.01);
  createPhotonTracer(world, emitters, targets, 5).trace(map, 0, PHOTONS);
  const sum = [0, 0, 0];
  for (let i = 0; i < map.count; i++) for (let c = 0; c < 3; c++) sum[c] += map.data[i * PHOTON_WORDS + PHOTON.r + c];
  return [sum[0], sum[1], sum[2]];
}

/**
 * The same photons walked here, by the kernels alone: what each loses to the drink is added up on the way, and what is left
 * when it meets the shell. Independent of the photon tracer's own bookkeeping.
 */
function walk(set: SetModel): { sent: number; absorbed: number; arrived: number } {
  const world = compileWorld(set, { rawColour: true });
  const emitters = createEmitterSampler(world);
  const targets = createCausticTargets(world, emitters, Float32Array.of(1, 1, 1));
  const { ray, hit, hitIndex, closest, normalAtHit } = createIntersector(world);
  const inside = createInsideSet(world);
  const media = createMediumKernel(world);
  const random = createRandom(9);
  const direction = new Float64Array(3);
  const total = { sent: 0, absorbed: 0, arrived: 0 };
  for (let i = 0; i < PHOTONS; i++) {
    const e = targets.sample(random(), random(), random(), random(), random(), direction);
    const o = emitters.out;
    const cos = direction[0] * o[3] + direction[1] * o[4] + direction[2] * o[5];
    if (cos <= 1e-6) continue;
    let flux =
      (1000 * cos) / (targets.density(e, o[0], o[1], o[2], direction[0], direction[1], direction[2]) * PHOTONS);
    total.sent += flux;
    ray.set([o[0], o[1], o[2], direction[0], direction[1], direction[2]]);
    inside.clear();
    for (let step = 0; step < 60; step++) {
      ray[6] = 1e-7;
      ray[7] = Number.POSITIVE_INFINITY;
      if (!closest()) break;
      normalAtHit();
      const medium = inside.medium();
      if (medium >= 0) {
        media.travel(medium, hit[0], flux, flux, flux, 0, 0);
        total.absorbed += flux * (1 - media.weight[1]);
        flux *= media.weight[1];
      }
      const w = hitIndex[0] * PRIMITIVE.strideWords;
      const words = world.primitiveWords;
      if (world.surfaceNames[words[w + PRIMITIVE.offset.surface]].recordId !== 'glass') {
        total.arrived += flux;
        break;
      }
      const toward = ray[3] * hit[1] + ray[4] * hit[2] + ray[5] * hit[3];
      const sides = [words[w + PRIMITIVE.offset.frontVolume], words[w + PRIMITIVE.offset.backVolume]];
      const [from, to] = toward < 0 ? sides : [sides[1], sides[0]];
      const eta = media.index(inside.mediumAfter(from, to)) / media.index(medium);
      const [x, y, z] = [0, 1, 2].map((k) => ray[k] + hit[0] * ray[3 + k]);
      if (random() < dielectricReflectance(Math.abs(toward), eta))
        reflectRay(ray, x, y, z, toward, hit[1], hit[2], hit[3]);
      else {
        refractRay(ray, x, y, z, toward, hit[1], hit[2], hit[3], eta);
        inside.cross(from, to);
      }
    }
  }
  return total;
}

describe('flux through a filled glass', () => {
  it('leaves the lamp, is absorbed or arrives: the three agree within 1 %', () => {
    for (const mu of [0, 5, 20]) {
      const { sent, absorbed, arrived } = walk(glassInShell([mu, mu, mu]));
      expect(Math.abs((absorbed + arrived) / sent - 1)).toBeLessThan(0.01);
      if (mu > 0) expect(absorbed / sent).toBeGreaterThan(0.05);
      else expect(absorbed).toBe(0);
    }
  });

  it('is absorbed in the photon tracer as in a walk by the kernels alone, within 1 %', () => {
    const share = (set: SetModel) => {
      const [none, some] = arriving(set);
      return some / none;
    };
    const clear = walk(glassInShell([0, 0, 0])).arrived;
    const throughGlass = arriving(glassInShell([0, 0, 0]))[0];
    const dim = walk(glassInShell([0, 20, 0]));
    const dimThroughGlass = throughGlass - (clear - dim.arrived);
    expect(Math.abs(share(glassInShell([0, 20, 0])) / (dimThroughGlass / throughGlass) - 1)).toBeLessThan(0.01);
  });

  it('all that meets the glass arrives when nothing absorbs, bent by it or not, within 1 %', () => {
    const clear = arriving(glassInShell([0, 0, 0]));
    expect(clear[0]).toBeGreaterThan(0);
    expect(clear[1]).toBe(clear[0]);
    // The same glass as thin air bends nothing and loses nothing: what meets it goes through it.
    const thin = glassInShell([0, 0, 0]);
    const air: SetModel = {
      ...thin,
      volumes: thin.volumes.map((v) => ({
        ...v,
        medium: { ...v.medium, index: v.id === 'glass' ? 1.000001 : 1.000002 },
      })),
    };
    const straight = arriving(air);
    expect(Math.abs(clear[0] / straight[0] - 1)).toBeLessThan(0.01);
  });

  it('what does not arrive was absorbed: thin absorption takes mu times the mean way through the drink', () => {
    // For small mu the loss is mu x mean path; two values of mu must agree on that mean path within 1 %, and a strong
    // one must follow the exponential of the distribution of ways, which lies between its mean and its longest way.
    const loss = (mu: number) => {
      const [none, some] = arriving(glassInShell([0, mu, 0]));
      return 1 - some / none;
    };
    const pathAt = (mu: number) => loss(mu) / mu;
    const short = pathAt(0.05);
    expect(Math.abs(pathAt(0.1) / short - 1)).toBeLessThan(0.01);
    expect(short).toBeGreaterThan(0.02);
    expect(short).toBeLessThan(0.12);
    // Jensen: the mean of exponentials is at least the exponential of the mean.
    expect(1 - loss(20)).toBeGreaterThan(Math.exp(-20 * short));
  });
});
