/**
 * How long the checks take on a full tabletop frame: `npx tsx bench/checks.bench.ts`. Prints milliseconds, median and 95th
 * percentile of the runs, all in one process: the whole suite from nothing, what its parts cost, and the suite again after
 * each light was moved by a centimetre with the cache of the run before.
 */
import { ALL_CHECKS, createCheckCache, createCheckInput, createFrameStudy, runChecks } from '../src/analysis/index.ts';
import type { FrameScene } from '../src/scene/setModel.ts';
import { camera, demoScene, glossSheet } from '../tests/analysis/helpers/scenes.ts';

const WARM_UP = 4;
const RUNS = 24;
/** What a hand that moves something waits for: neither remedies nor the turn of the table. */
const HELD = { remedies: false, sweep: false } as const;
const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });

const close = demoScene();
const wide: FrameScene = { ...close, camera: WIDE };
const rough: FrameScene = {
  ...wide,
  pieces: [
    glossSheet({ finish: { type: 'gloss', reflectanceRgb: [0.1, 0.1, 0.1], coatIndex: 1.5, roughness: 0.1 } }),
    ...wide.pieces.slice(1),
  ],
};

function time(run: (index: number) => unknown): string {
  for (let i = 0; i < WARM_UP; i++) run(i);
  const each = Array.from({ length: RUNS }, (_, i) => {
    const start = performance.now();
    run(WARM_UP + i);
    return performance.now() - start;
  }).sort((a, b) => a - b);
  const at = (share: number): string => each[Math.floor(share * (RUNS - 1))].toFixed(1).padStart(7);
  return `median ${at(0.5)} ms   p95 ${at(0.95)} ms`;
}

/** A light a centimetre further along for each run. */
const moved = (scene: FrameScene, fixtureId: string, index: number): FrameScene => ({
  ...scene,
  fixtures: scene.fixtures.map((fixture) =>
    fixture.id === fixtureId
      ? { ...fixture, positionM: [fixture.positionM[0] + 0.01 * index, fixture.positionM[1], fixture.positionM[2]] }
      : fixture,
  ),
});

/** Inputs are built beforehand: building and compiling the set is timed by itself. */
function timeMoves(scene: FrameScene, fixtureId: string): string {
  const inputs = Array.from({ length: WARM_UP + RUNS }, (_, i) => createCheckInput(moved(scene, fixtureId, i)));
  const cache = createCheckCache();
  runChecks(createCheckInput(scene), { ...HELD, cache });
  return time((index) => runChecks(inputs[index], { ...HELD, cache }));
}

const show = (what: string, result: string): void => console.log(`  ${what.padEnd(34)} ${result}`);

console.log(`node ${process.version} ${process.arch}, one thread, ${RUNS} runs each after ${WARM_UP} to warm up`);
for (const [name, scene] of [
  ['close frame', close],
  ['wide frame, light in the sheet', wide],
  ['wide frame, sheet of alpha 0.1', rough],
] as const) {
  const input = createCheckInput(scene);
  console.log(`\n${name}: ${input.query.world.primitiveCount} primitives, ${scene.fixtures.length} fixtures`);
  show(
    'build and compile',
    time(() => createCheckInput(scene)),
  );
  show(
    'frame grid',
    time(() => createFrameStudy(input).grid()),
  );
  show(
    `all ${ALL_CHECKS.length} checks`,
    time(() => runChecks(input, HELD)),
  );
  for (const { id } of scene.fixtures) show(`all, after ${id} moved`, timeMoves(scene, id));
}
