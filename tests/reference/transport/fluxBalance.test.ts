import { describe, expect, it } from 'vitest';
import { fromAim } from '../../../src/core/rigid.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { SetModel } from '../../../src/scene/setModel.ts';
import { createPhotonTracer } from '../../../src/transport/cpu/photonTracer.ts';
import { compileWorld } from '../../../src/transport/index.ts';
import { createCausticTargets } from '../../../src/transport/kernels/causticTargets.ts';
import { createEmitterSampler } from '../../../src/transport/kernels/emitterSampling.ts';
import { createPhotonMap, PHOTON, PHOTON_WORDS } from '../../../src/transport/kernels/photonMap.ts';
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

describe('flux through a filled glass', () => {
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
