import { invariant } from '../../core/result.ts';
import { FEATURE_WORDS, type Film } from '../../transport/contracts.ts';

/**
 * One film of an exposure from films of its moments: every moment counts for an equal part of the time in every pixel, however
 * many samples the tracer gave it there. Sums over the samples of all, so that grain and error read as of any film.
 */
export function mergeMoments(moments: readonly Film[]): Film {
  const [first] = moments;
  invariant(first !== undefined, () => 'an exposure of no moment');
  if (moments.length === 1) return first;
  const pixels = first.widthPx * first.heightPx;
  const merged: Film = {
    widthPx: first.widthPx,
    heightPx: first.heightPx,
    layerIds: first.layerIds,
    layers: first.layers.map(() => new Float32Array(pixels * 3)),
    samples: new Uint32Array(pixels),
    features: new Float32Array(pixels * FEATURE_WORDS),
    luminanceSum: new Float32Array(pixels),
    luminanceSquareSum: new Float32Array(pixels),
  };
  for (const { widthPx, heightPx, samples, layers } of moments) {
    invariant(
      widthPx === first.widthPx && heightPx === first.heightPx && layers.length === first.layers.length,
      () => 'films of unlike sizes',
    );
    for (let p = 0; p < pixels; p++) merged.samples[p] += samples[p];
  }
  for (const moment of moments) {
    for (let p = 0; p < pixels; p++) {
      if (moment.samples[p] === 0) continue;
      const weight = merged.samples[p] / (moments.length * moment.samples[p]);
      moment.layers.forEach((layer, l) => {
        for (let c = 3 * p; c < 3 * p + 3; c++) merged.layers[l][c] += weight * layer[c];
      });
      for (let k = p * FEATURE_WORDS; k < (p + 1) * FEATURE_WORDS; k++)
        merged.features[k] += weight * moment.features[k];
      merged.luminanceSum[p] += weight * moment.luminanceSum[p];
      merged.luminanceSquareSum[p] += weight * moment.luminanceSquareSum[p];
    }
  }
  return merged;
}
