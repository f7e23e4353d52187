export { type CompileOptions, compileWorld, SURROUND_LAYER } from './compile/compileWorld.ts';
export * from './contracts.ts';
export { denoiseFilm } from './cpu/denoiseFilm.ts';
export { addTile, composeFilm, createFilm, pixelErrors, relativeError, type TileResult } from './cpu/film.ts';
export { createPathTracer, type PathTracer } from './cpu/pathTracer.ts';
export { createRayQuery } from './cpu/rayQuery.ts';
export { createTracerFor, type Tile, traceTile } from './cpu/traceTile.ts';
export { browserPort } from './workers/browserPort.ts';
export type { FromWorker, ToWorker, WorkerPort } from './workers/protocol.ts';
export { createTileServer } from './workers/serveTiles.ts';
export {
  createTracePool,
  type TraceEvents,
  type TraceHandle,
  type TracePool,
  type TraceProgress,
} from './workers/tracePool.ts';
