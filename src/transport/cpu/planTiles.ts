import type { Film } from '../contracts.ts';
import type { Tile } from './traceTile.ts';

/** Square tiles of this many pixels a side. */
const TILE_PX = 32;
/** Samples of a pixel in one piece of work; a multiple of the groups that share photons. */
const GROUP_SAMPLES = 8;
/** Most samples that one adaptive pass adds to a tile, so that the picture is shown often. */
const MOST_PER_PASS = 64;
/** Luminances under this share of the frame's mean count as no darker: nobody sees noise in black. */
const DARK_SHARE = 0.1;
/** A tile counts for at least this share of the mean spread: one that has seen no light yet may only have been unlucky. */
const LEAST_SPREAD = 0.05;

type Area = Pick<Tile, 'x' | 'y' | 'widthPx' | 'heightPx'>;

/** A tile, the samples it has or has been given, and how noisy it is. */
export interface TilePlan {
  readonly area: Area;
  samples: number;
  /** Mean over its pixels of the squared relative error of luminance. */
  noise: number;
}

/** Work with its set of photons. */
export type PlannedTile = Tile & { readonly photonSet: number };

/** The frame cut into tiles, from the middle outward: the hero first. */
export function tilesOfFrame(widthPx: number, heightPx: number): TilePlan[] {
  const tiles: TilePlan[] = [];
  for (let y = 0; y < heightPx; y += TILE_PX)
    for (let x = 0; x < widthPx; x += TILE_PX)
      tiles.push({
        area: { x, y, widthPx: Math.min(TILE_PX, widthPx - x), heightPx: Math.min(TILE_PX, heightPx - y) },
        samples: 0,
        noise: 0,
      });
  const fromMiddle = ({ area: t }: TilePlan): number =>
    Math.hypot(t.x + t.widthPx / 2 - widthPx / 2, t.y + t.heightPx / 2 - heightPx / 2);
  return tiles.sort((a, b) => fromMiddle(a) - fromMiddle(b));
}

/** Mean luminance of everything traced so far, cd/m2. */
export function frameMean(film: Film): number {
  let sum = 0;
  for (let i = 0; i < film.samples.length; i++) if (film.samples[i] > 0) sum += film.luminanceSum[i] / film.samples[i];
  return sum / film.samples.length;
}

/** Mean over a tile's pixels of (standard error / (luminance + a little))^2. */
export function tileNoise(film: Film, area: Area, frameMeanNits: number): number {
  const floor = DARK_SHARE * frameMeanNits + 1e-9;
  let sum = 0;
  for (let y = area.y; y < area.y + area.heightPx; y++)
    for (let x = area.x; x < area.x + area.widthPx; x++) {
      const i = y * film.widthPx + x;
      const n = film.samples[i];
      if (n < 2) continue;
      const mean = film.luminanceSum[i] / n;
      const variance = Math.max(0, film.luminanceSquareSum[i] / n - mean * mean) / (n - 1);
      sum += variance / (mean + floor) ** 2;
    }
  return sum / (area.widthPx * area.heightPx);
}

/**
 * Work of one pass, `GROUP_SAMPLES` per pixel of the frame on average, given to tiles so that the whole frame's squared error
 * falls fastest: the number of samples that a tile should have grows with the spread of its samples (Neyman allocation).
 * Noise is measured on the samples themselves, so a tile that was lucky is looked at again now and then.
 *
 * By now tiles differ in how many samples they have. Were photons made anew for each number of samples, every worker would
 * make a set for nearly every piece of work; so the n-th pieces of all tiles share one.
 *
 * @param left samples per pixel still to be spent, on average
 * @param firstPhotonSet number of the first set of photons that no pass has used yet
 */
export function planAdaptivePass(tiles: readonly TilePlan[], left: number, firstPhotonSet: number): PlannedTile[] {
  const total = tiles.reduce((sum, tile) => sum + tile.samples, 0);
  const budget = Math.min(GROUP_SAMPLES, left) * tiles.length;
  const seen = tiles.map((tile) => Math.sqrt(tile.noise * tile.samples));
  const least = (LEAST_SPREAD * seen.reduce((a, b) => a + b, 0)) / tiles.length;
  const spread = seen.map((s) => Math.max(s, least));
  const spreadSum = spread.reduce((a, b) => a + b, 0);
  const wanted = tiles.map((tile, i) =>
    spreadSum > 0 ? Math.max(0, ((total + budget) * spread[i]) / spreadSum - tile.samples) : budget / tiles.length,
  );
  const scale = budget / (wanted.reduce((a, b) => a + b, 0) || 1);
  const work: PlannedTile[] = [];
  let spent = 0;
  const order = tiles.map((_, i) => i).sort((a, b) => wanted[b] - wanted[a]);
  for (const i of order) {
    if (spent >= budget) break;
    const groups =
      Math.min(MOST_PER_PASS, Math.ceil((wanted[i] * scale) / GROUP_SAMPLES) * GROUP_SAMPLES) / GROUP_SAMPLES;
    for (let g = 0; g < groups && spent < budget; g++) {
      work.push({
        ...tiles[i].area,
        firstSample: tiles[i].samples + g * GROUP_SAMPLES,
        samples: GROUP_SAMPLES,
        photonSet: firstPhotonSet + g,
      });
      spent += GROUP_SAMPLES;
    }
  }
  // Pieces that share photons after one another, so that a worker makes each set of photons once.
  return work.sort((a, b) => a.photonSet - b.photonSet);
}
