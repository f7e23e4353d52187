import { expect, test } from 'vitest';
import { dot, length, scale, sub, type Vec3 } from '../../../src/core/vec3.ts';
import { fixtureSchema, gripSchema } from '../../../src/fixtures/records.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { pieceSchema } from '../../../src/scene/records.ts';
import type { FrameScene } from '../../../src/scene/setModel.ts';
import { compileWorld } from '../../../src/transport/compile/compileWorld.ts';
import { createRayQuery } from '../../../src/transport/cpu/rayQuery.ts';
import { directIlluminance } from '../../../src/views/resources/light/directIlluminance.ts';
import { lightField } from '../../../src/views/resources/light/lightField.ts';
import { makeScene } from '../drawing/makeScene.ts';

/*
 * The simple lights and occluders of the quick picture against the exact surfaces of the set: rays to a fine grid on each
 * emitting surface, blocked or not, on a floor around the subject.
 */

const UP: Vec3 = [0, 1, 0];
/** Points per side of each emitter. */
const FINE = 24;

function floorPoints(): Vec3[] {
  const points: Vec3[] = [];
  for (let i = -4; i <= 4; i++) for (let k = -4; k <= 4; k++) points.push([i * 0.07 + 0.003, 0, k * 0.07 - 0.002]);
  return points;
}

function compare(scene: FrameScene) {
  const set = buildSet(scene);
  const query = createRayQuery(compileWorld(set));
  const gains = new Float32Array(scene.fixtures.length * 3).fill(1);
  const { lights } = lightField(scene, set, gains);
  const fixturesOnly = lights.filter(({ light }) => !light.secondHand && !light.isShade);
  const exact = (p: Vec3): number => {
    let sum = 0;
    query.world.emitters.forEach((emitter, e) => {
      const cells = emitter.areaM2 < 0.004 ? 6 : FINE;
      for (let i = 0; i < cells; i++) {
        for (let k = 0; k < cells; k++) {
          const { pointM, normal } = query.sampleEmitter(e, (i + 0.5) / cells, (k + 0.5) / cells);
          const d = sub(pointM, p);
          const distanceM = length(d);
          const toward = scale(d, 1 / distanceM);
          const there = -dot(toward, normal);
          if (there <= 0 || toward[1] <= 0 || query.blocked([p[0], 1e-5, p[2]], pointM)) continue;
          const nits = query.emittedNits(e, normal, scale(toward, -1));
          sum += (nits * toward[1] * there * emitter.areaM2) / (distanceM * distanceM * cells * cells);
        }
      }
    });
    return sum;
  };
  const pairs = floorPoints().map((p) => ({
    exact: exact(p),
    quick: directIlluminance(fixturesOnly, p, UP, null, 4)[0],
  }));
  const most = Math.max(...pairs.map((pair) => pair.exact));
  const mean = (pick: (pair: { exact: number; quick: number }) => number): number =>
    pairs.reduce((sum, pair) => sum + pick(pair), 0) / pairs.length;
  return {
    mostLux: most,
    /** Of the whole floor. */
    bias: mean((pair) => pair.quick) / mean((pair) => pair.exact) - 1,
    /** Mean distance point by point, over the brightest point. */
    deviation: mean((pair) => Math.abs(pair.quick - pair.exact)) / most,
  };
}

const base = makeScene();
const common = {
  id: 'fixture:a',
  name: 'A',
  positionM: [0.35, 0.8, 0.2],
  aimM: [0, 0, 0],
  output: { unit: 'lumens', value: 2000 },
};
const lit = (fixture: object, rest: Partial<FrameScene> = {}): FrameScene => ({
  ...base,
  grip: [],
  ...rest,
  fixtures: [fixtureSchema.parse({ ...common, ...fixture })],
});
const doors = { lengthM: 0.15, topDeg: 70, bottomDeg: 95, leftDeg: 60, rightDeg: 110 };
const flag = gripSchema.parse({
  kind: 'flag',
  id: 'grip:flag',
  name: 'Flag',
  positionM: [0.2, 0.4, 0.05],
  aimM: [0.35, 0.8, 0.2],
  widthM: 0.25,
  heightM: 0.15,
});
const plinths = [
  pieceSchema.parse({
    kind: 'plinthBox',
    id: 'box',
    name: 'Box',
    positionM: [-0.1, 0, 0.1],
    headingDeg: 25,
    widthM: 0.12,
    depthM: 0.1,
    heightM: 0.1,
    finish: { type: 'black' },
  }),
  pieceSchema.parse({
    kind: 'plinthCylinder',
    id: 'post',
    name: 'Post',
    positionM: [0.1, 0, -0.12],
    diameterM: 0.08,
    heightM: 0.15,
    finish: { type: 'black' },
  }),
];

test.each([
  ['a panel with barn doors', lit({ kind: 'panel', widthM: 0.3, heightM: 0.2, barnDoors: doors }), 0.04, 0.05],
  ['a flag before a panel', lit({ kind: 'panel', widthM: 0.3, heightM: 0.2 }, { grip: [flag] }), 0.03, 0.02],
  ['a softbox with a darker edge', lit({ kind: 'softbox', widthM: 0.4, heightM: 0.6, edgeFalloff: 0.5 }), 0.04, 0.03],
  ['a narrow spot', lit({ kind: 'spot', beamAngleDeg: 15 }), 0.03, 0.02],
  [
    'a spot with a snoot',
    lit({ kind: 'spot', beamAngleDeg: 30, snoot: { lengthM: 0.15, diameterM: 0.07 } }),
    0.06,
    0.03,
  ],
  ['a bulb in a snoot', lit({ kind: 'bulb', snoot: { lengthM: 0.2, diameterM: 0.1 } }), 0.08, 0.04],
  ['a tube', lit({ kind: 'tube', lengthM: 0.6 }), 0.03, 0.02],
  ['plinths in the light of a spot', lit({ kind: 'spot', beamAngleDeg: 40 }, { pieces: plinths }), 0.05, 0.04],
])('%s lights the floor as its exact surfaces do', (_, scene, most, mostDeviation) => {
  const { mostLux, bias, deviation } = compare(scene);
  expect(mostLux).toBeGreaterThan(100);
  expect(Math.abs(bias)).toBeLessThan(most);
  expect(deviation).toBeLessThan(mostDeviation);
});

test.each([
  ['a window', { type: 'window', columns: 2, rows: 2, barM: 0.015 }],
  ['slats', { type: 'slats', count: 4, openShare: 0.5, run: 'level' }],
  ['a doorway', { type: 'doorway', openWidthShare: 0.4, openHeightShare: 0.8 }],
  ['leaves', { type: 'leaves', count: 14, leafM: 0.05, seed: 4 }],
])('a gobo of %s throws its own pattern', (_, pattern) => {
  const gobo = { pattern, widthM: 0.2, heightM: 0.2, distanceM: 0.25, borderM: 0.2 };
  const { bias, deviation } = compare(lit({ kind: 'spot', beamAngleDeg: 50, lensDiameterM: 0.05, gobo }));
  expect(Math.abs(bias)).toBeLessThan(0.12);
  expect(deviation).toBeLessThan(0.06);
});

const dark = { type: 'black' };
// Each stands between the spot at (0.35, 0.8, 0.2) and the floor round the origin.
const between = { positionM: [0.2, 0, 0.12], headingDeg: 60, finish: dark };
const screens = [
  ['a reed screen', { kind: 'reedScreen', ...between, heightM: 0.6, reedM: 0.02, pitchM: 0.045, brokenShare: 0.2 }],
  ['a blind', { kind: 'slatScreen', ...between, heightM: 0.6, slatWidthM: 0.04, pitchM: 0.06, tiltDeg: 30 }],
  [
    'a window cutter',
    { kind: 'windowCutter', ...between, standM: 0.1, heightM: 0.5, openingWidthM: 0.3, openingHeightM: 0.35 },
  ],
  [
    'a doorway with a round head',
    {
      ...{
        kind: 'windowCutter',
        ...between,
        standM: 0,
        heightM: 0.6,
        shape: 'doorway',
        head: 'round',
        columns: 1,
        rows: 1,
      },
      ...{ openingWidthM: 0.2, openingHeightM: 0.4 },
    },
  ],
  ['steps', { kind: 'step', positionM: [0, 0, -0.1], finish: dark, riserM: 0.04, treadM: 0.06 }],
  ['a book', { kind: 'book', positionM: [0.02, 0, 0], headingDeg: 20, finish: dark, thicknessM: 0.06 }],
] as const;

/** What many narrow parts take of one cell of a light is taken to be independent, which leaves a screen too open. */
const TOO_OPEN: Readonly<Record<string, number>> = { 'a reed screen': 0.16, 'a blind': 0.12 };

test.each(screens)('%s throws the shadow of its exact surfaces', (name, piece) => {
  const pieces = [pieceSchema.parse({ id: 'piece:a', name: 'A', ...piece })];
  const spot = { kind: 'spot', beamAngleDeg: 50, lensDiameterM: 0.04 };
  const open = compare(lit(spot));
  const { bias, deviation } = compare(lit(spot, { pieces }));
  expect(open.bias).toBeLessThan(0.03);
  expect(Math.abs(bias)).toBeLessThan(TOO_OPEN[name] ?? 0.08);
  expect(deviation).toBeLessThan(name in TOO_OPEN ? 0.07 : 0.04);
});

// All light of a bulb in a whole ball of cloth that loses none (0.4 passed, 0.6 thrown back) comes out: pi L A = flux.
test('a lossless ball lantern of 1000 lm shines 1000 lm', () => {
  const lantern = fixtureSchema.parse({
    kind: 'lantern',
    ...common,
    output: { unit: 'lumens', value: 1000 },
    shape: 'sphere',
    diameterM: 0.3,
    heightM: 0.3,
    transmittance: 0.4,
    reflectance: 0.6,
  });
  const { lights } = lightField(
    { ...base, grip: [], fixtures: [lantern] },
    buildSet(base),
    new Float32Array([1, 1, 1]),
  );
  const shade = lights.find(({ light }) => light.isShade)?.light;
  expect((shade?.axialRgbNits[1] ?? 0) * Math.PI * (shade?.areaM2 ?? 0)).toBeCloseTo(1000, 3);
});

test('the bulb of an open lantern lights what is under it and not what is beside it', () => {
  const lantern = fixtureSchema.parse({
    kind: 'lantern',
    ...common,
    positionM: [0, 0.4, 0],
    aimM: [0, 0, 0],
    shape: 'cylinder',
    diameterM: 0.2,
    heightM: 0.2,
  });
  const scene = { ...base, grip: [], fixtures: [lantern] };
  const { lights } = lightField(scene, buildSet(scene), new Float32Array([1, 1, 1]));
  const bulb = lights.filter(({ light }) => !light.isShade);
  const lux = (x: number): number => directIlluminance(bulb, [x, 0, 0], UP, null, 4)[0];
  // The lower opening reaches 0.1 m to each side, 0.1 m under the bulb's middle: from the far side of the bulb (0.03 m off)
  // light reaches 0.13 / 0.1 x 0.4 - 0.03 = 0.49 m on the floor, and a little soft edge beyond.
  expect(lux(0)).toBeGreaterThan(0);
  expect(lux(0.3)).toBeGreaterThan(0);
  expect(lux(0.56)).toBe(0);
});
