import { LUMINANCE_WEIGHTS_REC2020 } from '../../../core/color/spaces.ts';
import type { Film } from '../../../transport/contracts.ts';

/**
 * Which part of the luminance of each pixel comes from one layer under the gains, 0..1; 0 where there is no light.
 *
 * @param layerGains layers x 3, working RGB; layers beyond it count as they are, as in `composeFilm`.
 */
export function lightShares(film: Film, layerGains: Float32Array, layer: number, out?: Float32Array): Float32Array {
  const pixels = film.widthPx * film.heightPx;
  const shares = out ?? new Float32Array(pixels);
  const totals = new Float32Array(pixels);
  shares.fill(0);
  film.layers.forEach((values, l) => {
    const [r, g, b] = weightsOf(layerGains, l);
    if (r === 0 && g === 0 && b === 0) return;
    for (let i = 0, k = 0; i < pixels; i++, k += 3) {
      const light = values[k] * r + values[k + 1] * g + values[k + 2] * b;
      totals[i] += light;
      if (l === layer) shares[i] = light;
    }
  });
  for (let i = 0; i < pixels; i++) shares[i] = totals[i] > 0 ? Math.min(1, Math.max(0, shares[i] / totals[i])) : 0;
  return shares;
}

/** Luminance weights of a layer's channels under its gain. */
function weightsOf(layerGains: Float32Array, layer: number): readonly [number, number, number] {
  const [r, g, b] = LUMINANCE_WEIGHTS_REC2020;
  const at = layer * 3;
  if (at + 2 >= layerGains.length) return [r, g, b];
  return [r * layerGains[at], g * layerGains[at + 1], b * layerGains[at + 2]];
}

/** Luminance of one layer about a place of the frame, cd/m2: mean over a round spot as the spot meter reads it. */
export function layerNitsAt(
  film: Film,
  layerGains: Float32Array,
  layer: number,
  point: { readonly u: number; readonly v: number },
  radiusPx: number,
): number {
  const [r, g, b] = weightsOf(layerGains, layer);
  const values = film.layers[layer];
  if (!values) return 0;
  const { widthPx, heightPx, samples } = film;
  const x = Math.min(widthPx - 1, Math.max(0, Math.floor(point.u * widthPx)));
  const y = Math.min(heightPx - 1, Math.max(0, Math.floor(point.v * heightPx)));
  let sum = 0;
  let count = 0;
  for (let py = Math.max(0, y - radiusPx); py <= Math.min(heightPx - 1, y + radiusPx); py++) {
    for (let px = Math.max(0, x - radiusPx); px <= Math.min(widthPx - 1, x + radiusPx); px++) {
      if ((px - x) ** 2 + (py - y) ** 2 > radiusPx ** 2) continue;
      const i = py * widthPx + px;
      if (samples[i] > 0) sum += (values[i * 3] * r + values[i * 3 + 1] * g + values[i * 3 + 2] * b) / samples[i];
      count++;
    }
  }
  return count > 0 ? sum / count : 0;
}

const ACCENT = [226, 163, 86] as const;

/** Draws a picture in grey, and in the accent where the light is that of one layer. Dark places are lifted to be seen. */
export function paintLightShare(shares: Float32Array, shown: Uint8ClampedArray, image: ImageData): void {
  const { data } = image;
  for (let i = 0, o = 0; i < shares.length; i++, o += 4) {
    const luma = (0.2126 * shown[o] + 0.7152 * shown[o + 1] + 0.0722 * shown[o + 2]) / 255;
    const grey = 20 + 120 * luma;
    const lift = 0.3 + 0.7 * luma;
    const share = shares[i];
    for (let k = 0; k < 3; k++) data[o + k] = grey + (ACCENT[k] * lift - grey) * share;
    data[o + 3] = 255;
  }
}
