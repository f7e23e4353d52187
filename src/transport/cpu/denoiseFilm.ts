import { LUMINANCE_WEIGHTS_REC2020 } from '../../core/color/spaces.ts';
import { FEATURE_WORDS, type Film } from '../contracts.ts';
import { composeFilm, pixelErrors } from './film.ts';

/** Rounds of the filter; each looks twice as far as the last. */
const ROUNDS = 5;
/** B3-spline taps. */
const TAPS = [1 / 16, 1 / 4, 3 / 8, 1 / 4, 1 / 16];
/** How unlike, in standard errors, two pixels' luminances may be before they stop sharing. */
const LUMINANCE_SIGMA = 3;
const NORMAL_POWER = 64;
const ALBEDO_SIGMA = 0.04;
const DEPTH_SIGMA = 0.02;

/**
 * Smooths what is left of the noise: an edge-avoiding a-trous wavelet filter (Dammertz et al., HPG 2010) whose weights follow
 * reflectance, normal, depth and the luminance of the composed picture against its own measured error (Schied et al., HPG
 * 2017). All layers are filtered with the one set of weights, so they still add up to the picture and a dimmer still acts on
 * them exactly. Biased: never use it for figures, and say on the picture that it was used.
 *
 * @param layerGains layers x 3 gains of the picture that the weights are made for
 * @returns a film with one sample a pixel that holds the smoothed means; features and error are those of the original
 */
export function denoiseFilm(film: Film, layerGains: Float32Array): Film {
  const { widthPx: w, heightPx: h } = film;
  const n = w * h;
  const errors = pixelErrors(film);
  const guide = luminanceOf(composeFilm(film, layerGains), n);
  const variance = Float32Array.from(errors, (e) => (Number.isFinite(e) ? e * e : 0));
  const features = meanFeatures(film);
  let layers = film.layers.map((layer) => {
    const mean = new Float32Array(layer.length);
    for (let i = 0; i < n; i++) {
      const inv = film.samples[i] > 0 ? 1 / film.samples[i] : 0;
      for (let c = 0; c < 3; c++) mean[i * 3 + c] = layer[i * 3 + c] * inv;
    }
    return mean;
  });
  tameOutliers(w, h, guide, variance, layers);
  let light: Float32Array = guide;
  let spread: Float32Array = variance;
  const weights = new Float32Array(25);
  const places = new Int32Array(25);
  for (let round = 0; round < ROUNDS; round++) {
    const step = 1 << round;
    const nextLayers = layers.map((layer) => new Float32Array(layer.length));
    const nextLight = new Float32Array(n);
    const nextSpread = new Float32Array(n);
    const error = localError(spread, w, h);
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++) {
        const i = y * w + x;
        const count = weighNeighbours(x, y, step, w, h, light, error[i], features, weights, places);
        let sum = 0;
        let lightSum = 0;
        let spreadSum = 0;
        for (let k = 0; k < count; k++) {
          const q = places[k];
          const weight = weights[k];
          sum += weight;
          lightSum += weight * light[q];
          spreadSum += weight * weight * spread[q];
        }
        nextLight[i] = lightSum / sum;
        nextSpread[i] = spreadSum / (sum * sum);
        for (let l = 0; l < layers.length; l++) {
          const from = layers[l];
          let r = 0;
          let g = 0;
          let b = 0;
          for (let k = 0; k < count; k++) {
            const q = places[k] * 3;
            r += weights[k] * from[q];
            g += weights[k] * from[q + 1];
            b += weights[k] * from[q + 2];
          }
          const to = nextLayers[l];
          to[i * 3] = r / sum;
          to[i * 3 + 1] = g / sum;
          to[i * 3 + 2] = b / sum;
        }
      }
    layers = nextLayers;
    light = nextLight;
    spread = nextSpread;
  }
  return { ...film, layers, samples: new Uint32Array(n).fill(1) };
}

/** Weights of the pixel itself and up to 24 neighbours at `step`; returns how many. */
function weighNeighbours(
  x: number,
  y: number,
  step: number,
  w: number,
  h: number,
  light: Float32Array,
  errorHere: number,
  features: Float32Array,
  weights: Float32Array,
  places: Int32Array,
): number {
  const i = y * w + x;
  const a = i * FEATURE_WORDS;
  const l = light[i];
  const slack = 1 / (LUMINANCE_SIGMA * errorHere + 1e-4 * (l + 1e-6));
  let count = 0;
  for (let v = -2; v <= 2; v++) {
    const yy = y + v * step;
    if (yy < 0 || yy >= h) continue;
    for (let u = -2; u <= 2; u++) {
      const xx = x + u * step;
      if (xx < 0 || xx >= w) continue;
      const q = yy * w + xx;
      const b = q * FEATURE_WORDS;
      let distance = Math.abs(light[q] - l) * slack;
      const dr = features[a] - features[b];
      const dg = features[a + 1] - features[b + 1];
      const db = features[a + 2] - features[b + 2];
      distance += (dr * dr + dg * dg + db * db) / (ALBEDO_SIGMA * ALBEDO_SIGMA);
      const depth = features[a + 6] + 1e-6;
      distance += Math.abs(features[a + 6] - features[b + 6]) / (DEPTH_SIGMA * depth * (1 + step * 0.25));
      if (distance > 12) continue;
      const cos =
        features[a + 3] * features[b + 3] + features[a + 4] * features[b + 4] + features[a + 5] * features[b + 5];
      const normal = cos <= 0 ? 0 : cos ** NORMAL_POWER;
      const weight = TAPS[u + 2] * TAPS[v + 2] * Math.exp(-distance) * normal;
      if (weight < 1e-6 && q !== i) continue;
      weights[count] = Math.max(weight, q === i ? 1e-4 : 0);
      places[count++] = q;
    }
  }
  return count;
}

/** Standard error of each pixel, its variance smoothed over 3 x 3 so that lucky pixels don't trust themselves. */
function localError(variance: Float32Array, w: number, h: number): Float32Array {
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      let sum = 0;
      let weight = 0;
      for (let v = -1; v <= 1; v++)
        for (let u = -1; u <= 1; u++) {
          const yy = y + v;
          const xx = x + u;
          if (yy < 0 || xx < 0 || yy >= h || xx >= w) continue;
          const k = (2 - Math.abs(u)) * (2 - Math.abs(v));
          sum += k * variance[yy * w + xx];
          weight += k;
        }
      out[y * w + x] = Math.sqrt(sum / weight);
    }
  return out;
}

/**
 * A single path that found a lamp by chance makes one pixel far brighter than all round it, and with a large error of its own.
 * Such pixels are brought down to the brightest of their neighbours, all layers by the same factor.
 */
function tameOutliers(w: number, h: number, light: Float32Array, variance: Float32Array, layers: Float32Array[]): void {
  const before = light.slice();
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const i = y * w + x;
      let first = 0;
      let second = 0;
      for (let v = -1; v <= 1; v++)
        for (let u = -1; u <= 1; u++) {
          if (u === 0 && v === 0) continue;
          const yy = y + v;
          const xx = x + u;
          if (yy < 0 || xx < 0 || yy >= h || xx >= w) continue;
          const l = before[yy * w + xx];
          if (l > first) {
            second = first;
            first = l;
          } else if (l > second) second = l;
        }
      if (before[i] <= 1.5 * second || Math.sqrt(variance[i]) < 0.2 * before[i]) continue;
      const factor = second / before[i];
      light[i] *= factor;
      variance[i] *= factor * factor;
      for (const layer of layers) for (let c = 0; c < 3; c++) layer[i * 3 + c] *= factor;
    }
}

function luminanceOf(rgb: Float32Array, n: number): Float32Array {
  const [r, g, b] = LUMINANCE_WEIGHTS_REC2020;
  const out = new Float32Array(n);
  for (let i = 0; i < n; i++) out[i] = rgb[i * 3] * r + rgb[i * 3 + 1] * g + rgb[i * 3 + 2] * b;
  return out;
}

/** Features per sample; normals made unit where there are any. */
function meanFeatures(film: Film): Float32Array {
  const out = new Float32Array(film.features.length);
  for (let i = 0; i < film.samples.length; i++) {
    const inv = film.samples[i] > 0 ? 1 / film.samples[i] : 0;
    const o = i * FEATURE_WORDS;
    for (let k = 0; k < FEATURE_WORDS; k++) out[o + k] = film.features[o + k] * inv;
    const length = Math.hypot(out[o + 3], out[o + 4], out[o + 5]);
    if (length > 1e-6) for (let k = 3; k < 6; k++) out[o + k] /= length;
    else out[o + 5] = 1;
  }
  return out;
}
