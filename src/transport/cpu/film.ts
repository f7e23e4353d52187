import { invariant } from '../../core/result.ts';
import { FEATURE_WORDS, type Film } from '../contracts.ts';

/** What one traced tile sends home: sums over `samples` samples of each of its pixels. */
export interface TileResult {
  readonly x: number;
  readonly y: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly samples: number;
  /** layers x pixels x 3, layer by layer, row by row. */
  readonly layerSums: Float32Array;
  /** pixels x FEATURE_WORDS. */
  readonly featureSums: Float32Array;
  readonly luminanceSum: Float32Array;
  readonly luminanceSquareSum: Float32Array;
  readonly dropped: number;
}

export function createFilm(widthPx: number, heightPx: number, layerIds: readonly string[]): Film {
  const pixels = widthPx * heightPx;
  return {
    widthPx,
    heightPx,
    layerIds,
    layers: layerIds.map(() => new Float32Array(pixels * 3)),
    samples: new Uint32Array(pixels),
    features: new Float32Array(pixels * FEATURE_WORDS),
    luminanceSum: new Float32Array(pixels),
    luminanceSquareSum: new Float32Array(pixels),
  };
}

/** Adds a tile's sums to the film. */
export function addTile(film: Film, tile: TileResult): void {
  const pixels = tile.widthPx * tile.heightPx;
  for (let row = 0; row < tile.heightPx; row++) {
    const to = (tile.y + row) * film.widthPx + tile.x;
    const from = row * tile.widthPx;
    for (let i = 0; i < tile.widthPx; i++) {
      film.samples[to + i] += tile.samples;
      film.luminanceSum[to + i] += tile.luminanceSum[from + i];
      film.luminanceSquareSum[to + i] += tile.luminanceSquareSum[from + i];
    }
    const features = tile.widthPx * FEATURE_WORDS;
    for (let i = 0; i < features; i++)
      film.features[to * FEATURE_WORDS + i] += tile.featureSums[from * FEATURE_WORDS + i];
    for (let l = 0; l < film.layers.length; l++) {
      const layer = film.layers[l];
      const base = (l * pixels + from) * 3;
      for (let i = 0; i < tile.widthPx * 3; i++) layer[to * 3 + i] += tile.layerSums[base + i];
    }
  }
}

/**
 * The picture under given gains: sum over layers of gain x mean. This is all that a switch, a dimmer or a colour costs.
 *
 * @param layerGains layers x 3, working RGB; layers beyond it (a surround) count as they are
 * @returns width x height x 3, working RGB cd/m2; 0 where nothing has been traced yet
 */
export function composeFilm(film: Film, layerGains: Float32Array, out?: Float32Array): Float32Array {
  const pixels = film.widthPx * film.heightPx;
  const result = out ?? new Float32Array(pixels * 3);
  invariant(
    result.length === pixels * 3,
    () => `picture buffer holds ${result.length} values, film needs ${pixels * 3}`,
  );
  result.fill(0);
  film.layers.forEach((layer, l) => {
    const known = l * 3 + 2 < layerGains.length;
    const r = known ? layerGains[l * 3] : 1;
    const g = known ? layerGains[l * 3 + 1] : 1;
    const b = known ? layerGains[l * 3 + 2] : 1;
    if (r === 0 && g === 0 && b === 0) return;
    for (let i = 0, k = 0; i < pixels; i++, k += 3) {
      result[k] += layer[k] * r;
      result[k + 1] += layer[k + 1] * g;
      result[k + 2] += layer[k + 2] * b;
    }
  });
  for (let i = 0, k = 0; i < pixels; i++, k += 3) {
    const n = film.samples[i];
    if (n === 0) continue;
    const scale = 1 / n;
    result[k] *= scale;
    result[k + 1] *= scale;
    result[k + 2] *= scale;
  }
  return result;
}

/**
 * Estimated standard error of each pixel's luminance, cd/m2, from the spread of its samples (independent samples assumed,
 * so stratified ones are at least this good). Infinity where fewer than two samples lie.
 */
export function pixelErrors(film: Film): Float32Array {
  const out = new Float32Array(film.samples.length);
  for (let i = 0; i < out.length; i++) {
    const n = film.samples[i];
    if (n < 2) {
      out[i] = Number.POSITIVE_INFINITY;
      continue;
    }
    const mean = film.luminanceSum[i] / n;
    const variance = Math.max(0, film.luminanceSquareSum[i] / n - mean * mean) * (n / (n - 1));
    out[i] = Math.sqrt(variance / n);
  }
  return out;
}

/** Root mean square of pixel errors over the mean luminance of the frame, the brightest 1 % of errors left out. */
export function relativeError(film: Film): number {
  const errors = pixelErrors(film);
  let sum = 0;
  let traced = 0;
  for (let i = 0; i < errors.length; i++) {
    if (film.samples[i] === 0) continue;
    sum += film.luminanceSum[i] / film.samples[i];
    traced++;
  }
  const finite = errors.filter((e) => Number.isFinite(e)).sort();
  if (traced === 0 || finite.length === 0 || sum === 0) return Number.POSITIVE_INFINITY;
  const keep = Math.max(1, Math.floor(finite.length * 0.99));
  let squares = 0;
  for (let i = 0; i < keep; i++) squares += finite[i] * finite[i];
  return Math.sqrt(squares / keep) / (sum / traced);
}
