/** What a tracing thread runs. */
import { parentPort } from 'node:worker_threads';
import { createTileServer } from '../../src/transport/workers/serveTiles.ts';

const serve = createTileServer((message, transfer) => parentPort?.postMessage(message, transfer));
parentPort?.on('message', serve);
