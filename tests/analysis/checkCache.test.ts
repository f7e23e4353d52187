import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ALL_CHECKS,
  type CheckInput,
  type CheckResult,
  createCheckCache,
  createCheckInput,
  type RunChecksOptions,
  runChecks,
} from '../../src/analysis/index.ts';
import { meetsBoxes } from '../../src/analysis/keep/setChange.ts';
import { lerp, type Vec3 } from '../../src/core/vec3.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { camera, demoScene, glossSheet, matteSheet } from './helpers/scenes.ts';

const HELD: RunChecksOptions = { remedies: false, sweep: false };

/** By scene: each is asked for more than once. */
const results = new Map<FrameScene, CheckResult>();
const fromNothing = (scene: FrameScene): CheckResult => {
  const result = results.get(scene) ?? runChecks(createCheckInput(scene), HELD);
  results.set(scene, result);
  return result;
};

const withFixture = (scene: FrameScene, id: string, patch: Record<string, unknown>): FrameScene => ({
  ...scene,
  fixtures: scene.fixtures.map((fixture) => (fixture.id === id ? { ...fixture, ...patch } : fixture)),
});
const withGrip = (scene: FrameScene, patch: Record<string, unknown>): FrameScene => ({
  ...scene,
  grip: scene.grip.map((item, i) => (i === 0 ? { ...item, ...patch } : item)),
});
const withSheet = (scene: FrameScene, sheet: FrameScene['pieces'][number]): FrameScene => ({
  ...scene,
  pieces: [sheet, ...scene.pieces.slice(1)],
});

const start = demoScene();
/** What people do to a set, one thing at a time. */
const CHANGES: readonly (readonly [string, FrameScene])[] = [
  ['the panel behind is raised', withFixture(start, 'back-panel', { positionM: [0, 0.9, -0.9] })],
  ['the softbox is pushed in front of the card', withFixture(start, 'fill', { positionM: [0.6, 0.5, 0.6] })],
  ['the bulb is moved behind the glass', withFixture(start, 'lantern', { positionM: [0.02, 0.1, -0.3] })],
  ['the key is turned away', withFixture(start, 'key', { aimM: [-1, 0, -1] })],
  ['the softbox is dimmed by two stops', withFixture(start, 'fill', { dimStops: -2 })],
  ['the key is switched off', withFixture(start, 'key', { on: false })],
  ['the key has a warmer colour', withFixture(start, 'key', { cctK: 2900 })],
  [
    'the panel is stronger',
    withFixture(start, 'back-panel', { output: { unit: 'luxAtDistance', value: 9000, distanceM: 1 } }),
  ],
  ['a sheet of grip is moved', withGrip(start, { positionM: [0.3, 0.2, 0.3] })],
  ['a sheet of grip is smaller', withGrip(start, { widthM: 0.1, heightM: 0.1 })],
  ['the sheet on the table is matte', withSheet(start, matteSheet())],
  [
    'the sheet on the table is rough',
    withSheet(
      start,
      glossSheet({ finish: { type: 'gloss', reflectanceRgb: [0.1, 0.1, 0.1], coatIndex: 1.5, roughness: 0.15 } }),
    ),
  ],
  [
    'the drink is moved',
    {
      ...start,
      pieces: start.pieces.map((p) =>
        p.id === 'tonic' ? { ...p, positionM: [0.02, 0.0051, 0.01] as [number, number, number] } : p,
      ),
    },
  ],
  ['the camera is moved', { ...start, camera: camera({ positionM: [0.1, 0.4, 1.2] }) }],
  ['the exposure is longer', { ...start, camera: camera({ shutterS: 1 / 30 }) }],
  ['the backdrop is gone', { ...start, pieces: start.pieces.filter(({ id }) => id !== 'backdrop') }],
];

describe('a cache of checks', () => {
  it.each(CHANGES)('gives what a run from nothing gives when %s, there and back', (_, changed) => {
    const cache = createCheckCache();
    for (const scene of [start, changed, start])
      expect(runChecks(createCheckInput(scene), { ...HELD, cache })).toEqual(fromNothing(scene));
  });

  it.each([0.15, 0.4])(
    'does so on a sheet of alpha %f as lights are dimmed and moved and the exposure is longer',
    (roughness) => {
      const cache = createCheckCache();
      const rough = withSheet(
        start,
        glossSheet({ finish: { type: 'gloss', reflectanceRgb: [0.1, 0.1, 0.1], coatIndex: 1.5, roughness } }),
      );
      const dimmed = withFixture(rough, 'back-panel', { dimStops: -1.5 });
      const moved = withFixture(dimmed, 'key', { positionM: [-0.4, 0.9, -0.9] });
      const longer = { ...moved, camera: camera({ shutterS: 1 / 15 }) };
      for (const scene of [rough, dimmed, moved, longer])
        expect(runChecks(createCheckInput(scene), { ...HELD, cache })).toEqual(fromNothing(scene));
    },
  );

  it('keeps to that over any row of changes', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...CHANGES), { minLength: 2, maxLength: 4 }), (row) => {
        const cache = createCheckCache();
        for (const [, scene] of row)
          expect(runChecks(createCheckInput(scene), { ...HELD, cache })).toEqual(fromNothing(scene));
      }),
      { numRuns: 4, seed: 11 },
    );
  });

  it.each(['key', 'back-panel', 'fill', 'lantern'])('asks for under a third of the rays after %s was moved', (id) => {
    const cache = createCheckCache();
    const raysOf = (scene: FrameScene): number => {
      const counted = countRays(createCheckInput(scene));
      runChecks(counted.input, { ...HELD, cache });
      return counted.count();
    };
    const first = raysOf(start);
    const [x, y, z] = start.fixtures.find((fixture) => fixture.id === id)?.positionM ?? [0, 0, 0];
    // Glints that come near the least area only now are looked at more closely, by rays that no run has walked before.
    expect(raysOf(withFixture(start, id, { positionM: [x + 0.02, y, z] }))).toBeLessThan(first / 3);
  });

  it('is as good as before after a run that was stopped half way', () => {
    const cache = createCheckCache();
    const moved = createCheckInput(withFixture(start, 'key', { positionM: [-1, 1, 0.4] }));
    runChecks(createCheckInput(start), { ...HELD, cache });
    let asked = 0;
    expect(runChecks(moved, { ...HELD, cache, shouldStop: () => ++asked > 5 }).stopped).toBe(true);
    expect(runChecks(moved, { ...HELD, cache })).toEqual(runChecks(moved, HELD));
  });
});

describe('stopping a run', () => {
  it('asks before each check and before the two parts that most of them share, and finds nothing once told to stop', () => {
    const input = createCheckInput(start);
    let asked = 0;
    const whole = runChecks(input, { ...HELD, shouldStop: () => ++asked < 0 });
    expect(asked).toBe(ALL_CHECKS.length + 2);
    expect(whole.stopped).toBeUndefined();
    expect(runChecks(input, { ...HELD, shouldStop: () => true })).toEqual({ findings: [], figures: {}, stopped: true });
  });
});

describe('a way through boxes', () => {
  const coordinate = fc.double({ min: -2, max: 2, noNaN: true });
  const point = fc.tuple(coordinate, coordinate, coordinate);

  it('meets a box whenever one of 200 points along it lies within', () => {
    fc.assert(
      fc.property(point, point, point, point, (a, b, c, d) => {
        const box = { minM: least(c, d), maxM: most(c, d) };
        const isWithin = (p: Vec3): boolean => [0, 1, 2].every((k) => p[k] >= box.minM[k] && p[k] <= box.maxM[k]);
        const touches = Array.from({ length: 201 }, (_, i) => lerp(a, b, i / 200)).some(isWithin);
        if (touches) expect(meetsBoxes([box], a, b, 1e-9)).toBe(true);
      }),
    );
  });

  it('misses a box that lies beside, before or beyond it', () => {
    const box = { minM: [-1, -1, -1] as const, maxM: [1, 1, 1] as const };
    expect(meetsBoxes([box], [-3, 0, 0], [-1.5, 0, 0], 0)).toBe(false);
    expect(meetsBoxes([box], [-3, 0, 0], [-1.5, 0, 0], 0.6)).toBe(true);
    // Past a corner: 3 across and 3 up, at 1.25 from both faces.
    expect(meetsBoxes([box], [-2.5, 0, 0], [0, 2.5, 0], 0)).toBe(false);
    expect(meetsBoxes([box], [-3, 1.5, 0], [3, 1.5, 0], 0)).toBe(false);
    expect(meetsBoxes([box], [-3, 0.5, 0], [3, 0.5, 0], 0)).toBe(true);
  });
});

function countRays(input: CheckInput): { readonly input: CheckInput; readonly count: () => number } {
  let count = 0;
  const { query } = input;
  return {
    input: {
      ...input,
      query: {
        ...query,
        closestHit: (...args) => {
          count++;
          return query.closestHit(...args);
        },
        blocked: (...args) => {
          count++;
          return query.blocked(...args);
        },
      },
    },
    count: () => count,
  };
}

const least = (a: Vec3, b: Vec3): Vec3 => [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])];
const most = (a: Vec3, b: Vec3): Vec3 => [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])];
