/// <reference lib="webworker" />
/** Entry of a browser worker. */
import type { ToWorker } from './protocol.ts';
import { createTileServer } from './serveTiles.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;
const serve = createTileServer((message, transfer) => scope.postMessage(message, transfer));
scope.onmessage = (event: MessageEvent<ToWorker>) => serve(event.data);
