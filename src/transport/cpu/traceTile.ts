import { FEATURE_WORDS, type TraceJob } from '../contracts.ts';
import type { TileResult } from './film.ts';
import { createPathTracer, type PathTracer } from './pathTracer.ts';

export interface Tile {
  readonly x: number;
  readonly y: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Samples firstSample .. firstSample + samples - 1 of each pixel. */
  readonly firstSample: number;
  readonly samples: number;
  /** Number of the set of photons that all of these samples share; each group of samples has its own when left out. */
  readonly photonSet?: number;
}

/** Photons cost about as much as paths: enough to draw caustics, a small share of a frame's paths. */
export const photonsForFrame = (widthPx: number, heightPx: number): number =>
  Math.round(Math.min(60_000, Math.max(5_000, widthPx * heightPx * 0.12)));

export const createTracerFor = (job: TraceJob): PathTracer =>
  createPathTracer({
    world: job.world,
    view: job.view,
    widthPx: job.widthPx,
    heightPx: job.heightPx,
    seed: job.seed,
    maxDepth: job.maxDepth,
    layerGains: job.layerGains,
    bounceOnly: job.bounceOnly ?? false,
    photonsPerPass: job.photonsPerPass ?? photonsForFrame(job.widthPx, job.heightPx),
  });

/** Traces some samples of the pixels of one tile. The result depends on the job, the tile and nothing else. */
export function traceTile(tracer: PathTracer, layerCount: number, tile: Tile): TileResult {
  const pixels = tile.widthPx * tile.heightPx;
  const layerSums = new Float32Array(layerCount * pixels * 3);
  const featureSums = new Float32Array(pixels * FEATURE_WORDS);
  const luminanceSum = new Float32Array(pixels);
  const luminanceSquareSum = new Float32Array(pixels);
  const droppedBefore = tracer.dropped[0];
  const { sample, luminance, features } = tracer;
  // Samples outermost: those that share photons follow one another.
  for (let s = 0; s < tile.samples; s++)
    for (let row = 0; row < tile.heightPx; row++)
      for (let column = 0; column < tile.widthPx; column++) {
        const i = row * tile.widthPx + column;
        tracer.tracePixel(tile.x + column, tile.y + row, tile.firstSample + s, tile.photonSet);
        const l = luminance[0];
        luminanceSum[i] += l;
        luminanceSquareSum[i] += l * l;
        for (let k = 0; k < FEATURE_WORDS; k++) featureSums[i * FEATURE_WORDS + k] += features[k];
        for (let layer = 0; layer < layerCount; layer++) {
          const to = (layer * pixels + i) * 3;
          layerSums[to] += sample[layer * 3];
          layerSums[to + 1] += sample[layer * 3 + 1];
          layerSums[to + 2] += sample[layer * 3 + 2];
        }
      }
  return {
    x: tile.x,
    y: tile.y,
    widthPx: tile.widthPx,
    heightPx: tile.heightPx,
    samples: tile.samples,
    layerSums,
    featureSums,
    luminanceSum,
    luminanceSquareSum,
    dropped: tracer.dropped[0] - droppedBefore,
  };
}
