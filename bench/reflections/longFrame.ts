import type { CameraView } from '../../src/camera/view.ts';
import { luminanceFromRec2020 } from '../../src/core/color/spaces.ts';
import {
  addTile,
  composeFilm,
  createFilm,
  createTracerFor,
  type TraceJob,
  traceTile,
  type World,
} from '../../src/transport/index.ts';
import { type NamedImages, traceNamedImages } from './namedImages.ts';

/** A traced frame with every mirror-like image of a source told apart. */
export interface LongFrame extends NamedImages {
  /** Luminance of the whole frame under the gains, cd/m2. */
  readonly totalNits: Float64Array;
}

export interface LongFrameOptions {
  readonly world: World;
  readonly view: CameraView;
  readonly layerGains: Float32Array;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly seed: number;
  /** Of a pixel of the whole frame, and of the images told apart. */
  readonly frameSamples: number;
  readonly imageSamples: number;
  /** Of the images told apart: paths end when less than this share of the light gets through, and after so many events. */
  readonly leastShare: number;
  readonly mostEvents: number;
}

const MAX_DEPTH = 24;

/** Traces the whole frame with the program's tracer, and its mirror-like images by themselves. The lens is a pinhole. */
export const traceLongFrame = (options: LongFrameOptions): LongFrame => ({
  ...traceImages(options),
  totalNits: traceTotalNits(options),
});

/** The mirror-like images alone. */
export const traceImages = ({ imageSamples: samples, ...options }: LongFrameOptions): NamedImages =>
  traceNamedImages({ ...options, view: pinhole(options.view), samples });

/** Luminance of the whole frame alone, cd/m2. */
export function traceTotalNits(options: LongFrameOptions): Float64Array {
  const { world, layerGains, widthPx, heightPx, seed } = options;
  const job: TraceJob = {
    world,
    view: pinhole(options.view),
    widthPx,
    heightPx,
    seed,
    samplesPerPixel: options.frameSamples,
    maxDepth: MAX_DEPTH,
    layerGains,
  };
  const film = createFilm(widthPx, heightPx, world.layerIds);
  const tile = { x: 0, y: 0, widthPx, heightPx, firstSample: 0, samples: options.frameSamples };
  addTile(film, traceTile(createTracerFor(job), world.layerIds.length, tile));
  const rgb = composeFilm(film, layerGains);
  return Float64Array.from({ length: widthPx * heightPx }, (_, i) =>
    luminanceFromRec2020([rgb[i * 3], rgb[i * 3 + 1], rgb[i * 3 + 2]]),
  );
}

const pinhole = (view: CameraView): CameraView => ({ ...view, apertureRadiusM: 0 });
