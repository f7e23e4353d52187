/**
 * How long the checks take on the largest demo: `npx tsx bench/checks.bench.ts`. A thread does what the app's worker of checks does
 * (build and compile the set, run the suite, answer); a request is timed from being sent to being answered. Median and 95th
 * percentile, in milliseconds of the clock and of the processor (the whole process; the main thread only waits): the suite
 * from nothing, as on opening a frame, and after each light was moved by a centimetre, as in a drag. On a machine that has
 * other work the processor's figure is the one that counts.
 */
import { Worker } from 'node:worker_threads';
import type { CheckReply, CheckRequest } from '../src/app/workers/checkProtocol.ts';
import type { FrameScene } from '../src/scene/setModel.ts';
import { bundleThread } from './checks/bundleThread.ts';
import { type DemoFrame, findLargestDemo } from './checks/largestDemo.ts';

const WARM_UP = 6;
const RUNS = Number(process.argv[2] ?? 24);

interface Timing {
  readonly clockMs: number;
  readonly processorMs: number;
}

const demo = findLargestDemo();
const worker = new Worker(await bundleThread());
let jobId = 0;

/** Sends one request and waits for its findings. */
function ask(scene: FrameScene, remedies = false): Promise<Timing> {
  const id = ++jobId;
  const request: CheckRequest = { jobId: id, key: `${id}`, scene, settings: demo.settings, remedies };
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const before = process.cpuUsage();
    const hear = (reply: Pick<CheckReply, 'type' | 'jobId'> & { readonly message?: string }): void => {
      if (reply.jobId !== id || reply.type === 'world') return;
      worker.off('message', hear);
      const { user, system } = process.cpuUsage(before);
      if (reply.type === 'result') resolve({ clockMs: performance.now() - start, processorMs: (user + system) / 1000 });
      else reject(new Error(reply.message ?? reply.type));
    };
    worker.on('message', hear);
    worker.postMessage(request);
  });
}

async function time(what: string, run: (index: number) => Promise<Timing>): Promise<void> {
  for (let i = 0; i < WARM_UP; i++) await run(i);
  const timings: Timing[] = [];
  for (let i = 0; i < RUNS; i++) timings.push(await run(WARM_UP + i));
  const at = (values: readonly number[], share: number): string => {
    const sorted = [...values].sort((a, b) => a - b);
    return sorted[Math.floor(share * (sorted.length - 1))].toFixed(1).padStart(7);
  };
  const clock = timings.map(({ clockMs }) => clockMs);
  const processor = timings.map(({ processorMs }) => processorMs);
  console.log(
    `  ${what.padEnd(30)} clock: median ${at(clock, 0.5)}  p95 ${at(clock, 0.95)}   processor: median ${at(processor, 0.5)}  p95 ${at(processor, 0.95)}`,
  );
}

/** A light a centimetre further along for each run. */
const moved = ({ scene }: DemoFrame, fixtureId: string, index: number): FrameScene => ({
  ...scene,
  fixtures: scene.fixtures.map((fixture) =>
    fixture.id === fixtureId
      ? {
          ...fixture,
          positionM: [fixture.positionM[0] + 0.01 * (index % 10), fixture.positionM[1], fixture.positionM[2]],
        }
      : fixture,
  ),
});

/** The same frame with nothing that was kept: pieces by other names are built anew, in another order nothing else holds either. */
const anew = ({ scene }: DemoFrame, index: number): FrameScene => {
  const pieces = scene.pieces.map((piece) => ({ ...piece, name: `${piece.name} ${index}` }));
  return { ...scene, pieces: index % 2 === 0 ? pieces : pieces.reverse() };
};

console.log(`node ${process.version} ${process.arch}, ${RUNS} runs each after ${WARM_UP} to warm up, in a worker`);
console.log(`${demo.name}: ${demo.primitiveCount} primitives, ${demo.scene.fixtures.length} lights`);
await time('all checks from nothing', (i) => ask(anew(demo, i)));
for (const { id, name } of demo.scene.fixtures) {
  await ask(demo.scene);
  await time(`after ${name} was moved`, (i) => ask(moved(demo, id, i)));
}
await worker.terminate();
