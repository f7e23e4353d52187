import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { normalize, orthonormalBasis, sub } from '../../src/core/vec3.ts';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import type { SetModel } from '../../src/scene/setModel.ts';
import { compileWorld } from '../../src/transport/index.ts';
import { createCausticTargets } from '../../src/transport/kernels/causticTargets.ts';
import { createEmitterSampler } from '../../src/transport/kernels/emitterSampling.ts';
import { BLACK, CLEAR, matte, mediumVolume, setOf, sphereShape, surfaceOf } from '../helpers/surfaces.ts';
import { TABLETOP_N, tabletopSet } from '../reference/tabletop/scene.ts';

/*
 * A density over (emitter, point on it, direction) must integrate to 1, and samples must fall as it says. The integral is
 * taken here by Monte Carlo of its own: emitter and point evenly, directions over the whole sphere, more of them toward the
 * hero.
 */
function demoSet(): SetModel {
  const text = readFileSync(new URL('../../assets/setups/tonic-on-gloss-black.json', import.meta.url), 'utf8');
  const parsed = parseSetup(text);
  if (!parsed.ok) throw new Error(parsed.error.message);
  const scene = resolveFrame(parsed.value.setup, parsed.value.setup.frames[0].id);
  if (!scene.ok) throw new Error('the demo does not resolve');
  return buildSet(scene.value);
}

/** A bulb inside the sphere that covers a clear ball: a bare lamp in a thick shade, where the cone is all directions. */
const lampInGlass = (): SetModel =>
  setOf(
    [
      surfaceOf('glass', sphereShape(0.06), CLEAR, { backVolume: 'glass' }),
      surfaceOf('table', { type: 'quad', originM: [-1, -0.06, 1], edgeUM: [2, 0, 0], edgeVM: [0, 0, -2] }, matte(0.5)),
      surfaceOf('bulb', sphereShape(0.01), BLACK, {
        emission: { fixtureId: 'bulb', axialLuminanceNits: 1000, profile: { type: 'lambert' } },
      }),
    ],
    [mediumVolume('glass', 1.5)],
  );

const SETS: readonly (readonly [string, () => SetModel])[] = [
  ['the first demo', demoSet],
  ['the tabletop with two panels and a gloss base', () => tabletopSet(TABLETOP_N)],
  ['a bulb inside a glass ball', lampInGlass],
];

function targetsOf(set: SetModel) {
  const world = compileWorld(set);
  const emitters = createEmitterSampler(world);
  const gains = new Float32Array(world.layerIds.length * 3).fill(1);
  // One light dimmed, as on a real set.
  gains.fill(0.25, 0, 3);
  return { world, emitters, targets: createCausticTargets(world, emitters, gains) };
}

/** Half of the directions of a sweep are taken in a cone of this cosine toward the hero: the density is peaked there. */
const CONE_COS = Math.cos(0.7);
const HERO = [0, 0.05, 0] as const;

/** Even over emitters and their areas; `visit` gets the emitter, the direction and density over the chance of this sweep. */
function sweep(
  { emitters, targets }: ReturnType<typeof targetsOf>,
  count: number,
  seed: number,
  visit: (emitter: number, direction: Float64Array, share: number) => void,
): void {
  const random = createRandom(seed);
  const d = new Float64Array(3);
  for (let i = 0; i < count; i++) {
    const e = Math.floor(random() * emitters.count);
    emitters.sample(e, random(), random());
    const [x, y, z] = emitters.out;
    const axis = normalize(sub(HERO, [x, y, z]));
    const inCone = random() < 0.5;
    const cos = inCone ? 1 - random() * (1 - CONE_COS) : 2 * random() - 1;
    const phi = 2 * Math.PI * random();
    const sin = Math.sqrt(1 - cos * cos);
    const { tangent, bitangent } = orthonormalBasis(inCone ? axis : [0, 0, 1]);
    for (let k = 0; k < 3; k++)
      d[k] =
        sin * (Math.cos(phi) * tangent[k] + Math.sin(phi) * bitangent[k]) + cos * (inCone ? axis[k] : k === 2 ? 1 : 0);
    const meetsCone = d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2] > CONE_COS;
    const chance = 0.5 / (4 * Math.PI) + (meetsCone ? 0.5 / (2 * Math.PI * (1 - CONE_COS)) : 0);
    const density = targets.density(e, x, y, z, d[0], d[1], d[2]);
    visit(e, d, (density * emitters.count * emitters.areaM2[e]) / chance);
  }
}

describe('starts of photons', () => {
  it.each(SETS)('have a density that integrates to 1 over emitters x sphere of directions: %s', (_name, set) => {
    const made = targetsOf(set());
    expect(made.targets.any).toBe(true);
    const count = 600_000;
    let sum = 0;
    let squares = 0;
    sweep(made, count, 1, (_e, _d, share) => {
      sum += share;
      squares += share * share;
    });
    const mean = sum / count;
    const error = Math.sqrt((squares / count - mean * mean) / count);
    expect(error).toBeLessThan(0.02);
    expect(Math.abs(mean - 1), `${mean} +- ${error}`).toBeLessThan(4 * error + 1e-9);
  });

  it.each(SETS)('fall over emitters and directions as the density says: %s', (_name, set) => {
    const made = targetsOf(set());
    const { emitters, targets } = made;
    // Bins: emitter x 6 heights x 12 azimuths of the direction.
    const binOf = (e: number, d: Float64Array): number => {
      const turn = Math.min(11, Math.floor((Math.atan2(d[1], d[0]) / (2 * Math.PI) + 0.5) * 12));
      return (e * 6 + Math.min(5, Math.floor((d[2] + 1) * 3))) * 12 + turn;
    };
    const bins = emitters.count * 72;
    const expected = new Float64Array(bins);
    const expectedSquares = new Float64Array(bins);
    const sweeps = 600_000;
    sweep(made, sweeps, 2, (e, d, share) => {
      const b = binOf(e, d);
      expected[b] += share;
      expectedSquares[b] += share * share;
    });
    const random = createRandom(3);
    const observed = new Float64Array(bins);
    const draws = 60_000;
    const direction = new Float64Array(3);
    for (let i = 0; i < draws; i++) {
      const e = targets.sample(random(), random(), random(), random(), random(), direction);
      expect(Math.abs(Math.hypot(...direction) - 1)).toBeLessThan(1e-9);
      const [x, y, z] = emitters.out;
      // Nothing is drawn where the density is none, rounding at the cone's edge aside.
      if (!(targets.density(e, x, y, z, direction[0], direction[1], direction[2]) > 0))
        observed[binOf(e, direction)] -= 1e3;
      observed[binOf(e, direction)]++;
    }
    // Difference of two estimates, squared, over its variance: chi-square with as many degrees as bins that count.
    let chiSquare = 0;
    let degrees = 0;
    for (let b = 0; b < bins; b++) {
      const p = expected[b] / sweeps;
      if (p * draws < 20) continue;
      const q = observed[b] / draws;
      const variance = (expectedSquares[b] / sweeps - p * p) / sweeps + (p * (1 - p)) / draws;
      chiSquare += ((p - q) * (p - q)) / variance;
      degrees++;
    }
    expect(degrees).toBeGreaterThan(3);
    expect(chiSquare, `${degrees} degrees of freedom`).toBeLessThan(degrees + 4 * Math.sqrt(2 * degrees));
  });
});
