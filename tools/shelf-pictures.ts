/**
 * Takes the small pictures of the shelf into assets/shelf and those of the first screen into assets/start, by our own
 * tracer. Give part of a name to take only those.
 *   npx tsx tools/shelf-pictures.ts [NAME-PART]... [--missing]
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { createTracePool } from '../src/transport/workers/tracePool.ts';
import { nodePort } from './cli/nodePort.ts';
import { ROOT } from './setup.mjs';
import { createWebpEncoder } from './shelf/encodeWebp.ts';
import { type PictureScene, pictureScenes } from './shelf/pictureScene.ts';
import { startScenes } from './shelf/startScenes.ts';
import { type PictureSize, takePicture } from './shelf/takePicture.ts';

interface Batch {
  readonly folder: string;
  readonly scenes: readonly PictureScene[];
  readonly size: PictureSize;
  readonly quality: number;
}

const asset = (name: string): string => join(ROOT, 'assets', name);
const BATCHES: readonly Batch[] = [
  {
    folder: asset('start'),
    scenes: startScenes(),
    size: { widthPx: 448, heightPx: 252, samples: 32, reduce: 2 },
    quality: 0.84,
  },
  {
    folder: asset('shelf'),
    scenes: pictureScenes(),
    size: { widthPx: 128, heightPx: 96, samples: 20, reduce: 2 },
    quality: 0.86,
  },
];

const parts = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const onlyMissing = process.argv.includes('--missing');
const encoder = await createWebpEncoder();
const pool = createTracePool({ workerCount: availableParallelism(), spawn: nodePort });
for (const { folder, scenes, size, quality } of BATCHES) {
  mkdirSync(folder, { recursive: true });
  for (const { key, scene, ownLightId } of scenes) {
    const path = join(folder, `${key}.webp`);
    if (parts.length > 0 && !parts.some((part) => key.includes(part))) continue;
    if (onlyMissing && existsSync(path)) continue;
    const startedMs = performance.now();
    writeFileSync(path, await encoder.encode(await takePicture(pool, scene, size, ownLightId), quality));
    process.stdout.write(`${key} ${((performance.now() - startedMs) / 1000).toFixed(1)} s\n`);
  }
}
pool.dispose();
await encoder.close();
