import { developParams, developPixels } from '../../src/camera/develop.ts';
import { cameraView } from '../../src/camera/projection.ts';
import { layerGains } from '../../src/fixtures/gain.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import type { FrameScene } from '../../src/scene/setModel.ts';
import { compileWorld } from '../../src/transport/compile/compileWorld.ts';
import type { Film, TraceJob } from '../../src/transport/contracts.ts';
import { denoiseFilm } from '../../src/transport/cpu/denoiseFilm.ts';
import type { TracePool } from '../../src/transport/workers/tracePool.ts';

/** Of a small picture before it is reduced. */
export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly samples: number;
  /** Pixels of the trace that make one of the picture, each way. */
  readonly reduce: number;
}

export interface SmallPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  /** n x 4, sRGB, alpha 255. */
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}

/** What a light's own face shows, in cd/m2 of the picture: just over white, so that it keeps its shape. */
const OWN_LIGHT_SHARE = 0.995;

/** Traces a scene with our own tracer, smooths it, develops it and brings it down to size. */
export async function takePicture(
  pool: TracePool,
  scene: FrameScene,
  { widthPx, heightPx, samples, reduce }: PictureSize,
  ownLightId?: string,
): Promise<SmallPicture> {
  const traced = { widthPx: widthPx * reduce, heightPx: heightPx * reduce };
  const gains = layerGains(scene.fixtures);
  const film = await traceWith(pool, {
    world: compileWorld(buildSet(scene)),
    view: cameraView(scene.camera, traced.widthPx / traced.heightPx),
    ...traced,
    seed: 1,
    samplesPerPixel: samples,
    maxDepth: 24,
    layerGains: gains,
  });
  const params = developParams(scene.camera);
  if (ownLightId !== undefined) {
    const k = film.layerIds.indexOf(ownLightId);
    const brightest = percentileLuminance(film, k, OWN_LIGHT_SHARE);
    if (brightest > 0) gains.fill(1.15 / params.scale / brightest, 3 * k, 3 * k + 3);
  }
  const smooth = denoiseFilm(film, gains);
  const light = new Float32Array(traced.widthPx * traced.heightPx * 3);
  for (const [k, layer] of smooth.layers.entries()) {
    for (let i = 0; i < light.length; i++) {
      light[i] += (layer[i] * gains[3 * k + (i % 3)]) / Math.max(1, smooth.samples[Math.floor(i / 3)]);
    }
  }
  return { widthPx, heightPx, rgba: developPixels(reduceLight(light, widthPx, heightPx, reduce), params) };
}

/** Boxes of pixels averaged as light, so that edges stay as bright as they are. */
function reduceLight(light: Float32Array, widthPx: number, heightPx: number, reduce: number): Float32Array {
  const reduced = new Float32Array(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx * reduce; y++) {
    for (let x = 0; x < widthPx * reduce; x++) {
      const from = 3 * (y * widthPx * reduce + x);
      const to = 3 * (Math.floor(y / reduce) * widthPx + Math.floor(x / reduce));
      for (let c = 0; c < 3; c++) reduced[to + c] += light[from + c] / reduce ** 2;
    }
  }
  return reduced;
}

function percentileLuminance(film: Film, k: number, share: number): number {
  const layer = film.layers[k];
  const values = Array.from(film.samples, (n, i) => (layer ? layer[3 * i + 1] / Math.max(1, n) : 0));
  values.sort((a, b) => a - b);
  return values[Math.floor(share * (values.length - 1))] ?? 0;
}

const traceWith = (pool: TracePool, job: TraceJob): Promise<Film> =>
  new Promise((resolve, reject) => pool.start(job, { onDone: resolve, onError: reject }));
