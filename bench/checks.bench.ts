/**
 * How long the checks take on a full tabletop frame: `npx tsx bench/checks.bench.ts`. Prints milliseconds (fastest and
 * mean of the runs) and what each part costs against the whole run without remedies, measured in the same process.
 */
import { createCheckInput, createFrameStudy, runChecks } from '../src/analysis/index.ts';
import type { FrameScene } from '../src/scene/setModel.ts';
import { camera, demoScene, glossSheet } from '../tests/analysis/helpers/scenes.ts';

const RUNS = 8;
const WIDE = camera({ positionM: [0, 0.5, 1.5], aimM: [0, 0.03, 0], focalLengthMm: 50, focusDistanceM: 1.57 });

const close = demoScene();
const wide: FrameScene = { ...close, camera: WIDE };
const withSheet = (roughness: number): FrameScene => ({
  ...wide,
  pieces: [
    glossSheet({ finish: { type: 'gloss', reflectanceRgb: [0.1, 0.1, 0.1], coatIndex: 1.5, roughness } }),
    ...wide.pieces.slice(1),
  ],
});

interface Timing {
  readonly fastestMs: number;
  readonly meanMs: number;
}
function time(run: () => unknown): Timing {
  run();
  const each = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return { fastestMs: Math.min(...each), meanMs: each.reduce((sum, ms) => sum + ms, 0) / RUNS };
}

console.log(`node ${process.version} ${process.arch}, one thread, ${RUNS} runs each after one to warm up`);
for (const [name, scene] of [
  ['close frame', close],
  ['wide frame, light in the sheet', wide],
  ['wide frame, sheet of alpha 0.1', withSheet(0.1)],
  ['wide frame, sheet of alpha 0.3', withSheet(0.3)],
] as const) {
  const input = createCheckInput(scene);
  const whole = time(() => runChecks(input, { remedies: false }));
  const parts: readonly (readonly [string, Timing])[] = [
    ['build and compile', time(() => createCheckInput(scene))],
    ['frame grid', time(() => createFrameStudy(input).grid())],
    ['reflections', time(() => runChecks(input, { checks: ['reflections'], remedies: false }))],
    ['flare', time(() => runChecks(input, { checks: ['flare'], remedies: false }))],
    ['exposure', time(() => runChecks(input, { checks: ['exposure'], remedies: false }))],
    ['all, no remedies', whole],
    ['all, with remedies', time(() => runChecks(input))],
  ];
  console.log(`\n${name}: ${input.query.world.primitiveCount} primitives, ${scene.fixtures.length} fixtures`);
  for (const [part, { fastestMs, meanMs }] of parts)
    console.log(
      `  ${part.padEnd(20)} ${fastestMs.toFixed(1).padStart(7)} ms  mean ${meanMs.toFixed(1).padStart(7)}  ` +
        `x ${(fastestMs / whole.fastestMs).toFixed(2)}`,
    );
}
