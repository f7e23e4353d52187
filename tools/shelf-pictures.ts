/**
 * Takes the small pictures of the shelf, by our own tracer, into assets/shelf. Give part of a name to take only those.
 *   npx tsx tools/shelf-pictures.ts [NAME-PART]... [--missing]
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { createTracePool } from '../src/transport/workers/tracePool.ts';
import { nodePort } from './cli/nodePort.ts';
import { ROOT } from './setup.mjs';
import { createWebpEncoder } from './shelf/encodeWebp.ts';
import { pictureScenes } from './shelf/pictureScene.ts';
import { type PictureSize, takePicture } from './shelf/takePicture.ts';

const FOLDER = join(ROOT, 'assets', 'shelf');
const SIZE: PictureSize = { widthPx: 128, heightPx: 96, samples: 16, reduce: 2 };
const QUALITY = 0.86;

const parts = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const onlyMissing = process.argv.includes('--missing');
mkdirSync(FOLDER, { recursive: true });
const encoder = await createWebpEncoder();
const pool = createTracePool({ workerCount: availableParallelism(), spawn: nodePort });
for (const { key, scene, ownLightId } of pictureScenes()) {
  const path = join(FOLDER, `${key}.webp`);
  if (parts.length > 0 && !parts.some((part) => key.includes(part))) continue;
  if (onlyMissing && existsSync(path)) continue;
  const startedMs = performance.now();
  writeFileSync(path, await encoder.encode(await takePicture(pool, scene, SIZE, ownLightId), QUALITY));
  process.stdout.write(`${key} ${((performance.now() - startedMs) / 1000).toFixed(1)} s\n`);
}
pool.dispose();
await encoder.close();
