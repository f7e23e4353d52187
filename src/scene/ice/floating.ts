import type { RigidTransform } from '../../core/rigid.ts';
import { ICE_DENSITY_KG_PER_M3 } from './meltIce.ts';

/** Water beside melting ice, near 0 C (CRC Handbook; from memory). */
const COLD_WATER_DENSITY_KG_PER_M3 = 999.84;

/** Share of the volume of floating ice that stands over the water, by Archimedes: 1 - 916.7/999.84 = 8.3 %. */
export const FLOATING_SHARE_ABOVE = 1 - ICE_DENSITY_KG_PER_M3 / COLD_WATER_DENSITY_KG_PER_M3;

const scratch = new Float64Array(1 << 16);

/**
 * How far the surface of the water lies over the middle of a freely floating piece (negative: under it), held in this
 * orientation. From evenly spread samples: with 1200 the share above is right to half a per cent of the volume, with 500 to one.
 *
 * @param samples n x 3 points spread evenly through the piece, about its middle
 */
export function waterlineM(rotation: RigidTransform['rotation'], samples: Float64Array): number {
  const n = samples.length / 3;
  const [a, b, c] = [rotation[3], rotation[4], rotation[5]];
  for (let i = 0; i < n; i++) scratch[i] = a * samples[3 * i] + b * samples[3 * i + 1] + c * samples[3 * i + 2];
  return levelWithShareAbove(scratch.subarray(0, n), FLOATING_SHARE_ABOVE);
}

/** Height that leaves `share` of the heights above it; reorders them. Between two heights, in proportion. */
export function levelWithShareAbove(heights: Float64Array, share: number): number {
  const n = heights.length;
  const below = (1 - share) * n - 0.5;
  const k = Math.max(0, Math.min(n - 2, Math.floor(below)));
  const low = select(heights, k);
  let high = Number.POSITIVE_INFINITY;
  for (let i = k + 1; i < n; i++) high = Math.min(high, heights[i]);
  return low + (high - low) * Math.max(0, Math.min(1, below - k));
}

/** The k-th least value, found in place (C. A. R. Hoare, "Algorithm 65: Find", CACM 4(7), 1961). */
function select(values: Float64Array, k: number): number {
  let lo = 0;
  let hi = values.length - 1;
  while (lo < hi) {
    const pivot = values[(lo + hi) >> 1];
    let i = lo;
    let j = hi;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i <= j) {
        const swap = values[i];
        values[i] = values[j];
        values[j] = swap;
        i++;
        j--;
      }
    }
    if (k <= j) hi = j;
    else if (k >= i) lo = i;
    else break;
  }
  return values[k];
}
