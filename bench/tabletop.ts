/**
 * Seconds to a clean tabletop (tests/reference/tabletop): traces both variants on `--workers` threads and measures, after each pass,
 * the relative mean square error against the independent renderer's picture; with and without the photon pass.
 *
 *   npx tsx bench/tabletop.ts [--workers 2] [--target 0.01] [--variant n|a]
 *
 * relMSE = mean over pixels and channels of (x - r)^2 / (r^2 + 0.01 m^2), m the mean of the reference, leaving out the 0.1
 * percent of pixels with the largest error.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readPfm } from '../src/deliverables/image/index.ts';
import { compileWorld, composeFilm, createTracePool, type Film } from '../src/transport/index.ts';
import { TABLETOP_A, TABLETOP_N, tabletopSet, tabletopView } from '../tests/reference/tabletop/scene.ts';
import { nodePort } from '../tools/cli/nodePort.ts';

const SIZE = 256;
const { values } = parseArgs({
  options: {
    workers: { type: 'string', default: '2' },
    target: { type: 'string', default: '0.01' },
    variant: { type: 'string', default: 'n' },
  },
});
const workerCount = Number(values.workers);
const target = Number(values.target);
const variant = values.variant === 'a' ? TABLETOP_A : TABLETOP_N;
const file = readPfm(readFileSync(new URL(`../tests/reference/tabletop/${variant.file}`, import.meta.url)));
if (!file.ok) throw new Error(file.error.message);
const reference = file.value.rgb;
const mean = reference.reduce((sum, v) => sum + v, 0) / reference.length;
const world = compileWorld(tabletopSet(variant), { rawColour: true });
const layerGains = new Float32Array(6).fill(1);

function relativeMeanSquareError(film: Film): number {
  const picture = composeFilm(film, layerGains);
  const errors = new Float64Array(SIZE * SIZE);
  for (let i = 0; i < errors.length; i++)
    for (let c = 0; c < 3; c++) {
      const r = reference[i * 3 + c];
      errors[i] += (picture[i * 3 + c] - r) ** 2 / (r * r + 0.01 * mean * mean) / 3;
    }
  errors.sort();
  const keep = Math.floor(errors.length * 0.999);
  let sum = 0;
  for (let i = 0; i < keep; i++) sum += errors[i];
  return sum / keep;
}

async function measure(name: string, photonsPerPass: number | undefined): Promise<void> {
  const pool = createTracePool({ workerCount, spawn: nodePort });
  const job = {
    world,
    view: tabletopView(),
    widthPx: SIZE,
    heightPx: SIZE,
    seed: 1,
    maxDepth: 24,
    layerGains,
    ...(photonsPerPass === undefined ? {} : { photonsPerPass }),
  };
  // Warm the threads up first, so that start and compilation are not counted.
  await new Promise((resolve) => pool.start({ ...job, samplesPerPixel: 2 }, { onDone: resolve }));
  const start = performance.now();
  let checking = 0;
  await new Promise<void>((resolve) => {
    const handle = pool.start(
      { ...job, samplesPerPixel: 4096 },
      {
        onProgress: (film, { samplesDone }) => {
          const before = performance.now();
          const seconds = (before - start - checking) / 1000;
          const error = relativeMeanSquareError(film);
          checking += performance.now() - before;
          if (samplesDone >= 16)
            console.log(
              `${name.padEnd(16)} ${String(samplesDone).padStart(4)} samples ${seconds.toFixed(1).padStart(6)} s  relMSE ${error.toFixed(4)}  ${((samplesDone * SIZE * SIZE) / seconds / 1e6).toFixed(2)} M camera paths/s`,
            );
          if (error <= target || seconds > 120) {
            handle.cancel();
            resolve();
          }
        },
      },
    );
  });
  pool.dispose();
}

await measure('with photons', undefined);
await measure('path tracing', 0);
