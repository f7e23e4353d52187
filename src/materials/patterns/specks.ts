import { clampUnit, hashAgain, hashCell, smoothStep, unitOfBits } from './noise.ts';

/** Second, finer set of specks: this many times as many cells to the metre. */
const FINE_SPECKS = 3.7;

/** Two sets of specks and an even film. The parameters are radii in cells and the film's share; see `speckleParameters`. */
export function speckleMix(
  x: number,
  y: number,
  z: number,
  seed: number,
  params: Float64Array,
  offset: number,
): number {
  const coarse = speckField(x, y, z, seed, params[offset + 3]);
  const fine = speckField(x * FINE_SPECKS, y * FINE_SPECKS, z * FINE_SPECKS, seed + 1, params[offset + 4]);
  return 1 - (1 - coarse) * (1 - fine) * (1 - params[offset + 5]);
}

/** Largest speck over the given radius, soft edge included. */
const SPECK_SPREAD = 1.4 * 1.15;

/** One ball a cell, 0.6 to 1.4 of `radius`, at most half a cell: any flat cut shows round specks of many sizes. */
function speckField(x: number, y: number, z: number, seed: number, radius: number): number {
  if (radius <= 0) return 0;
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  const sx = x - ix < 0.5 ? -1 : 1;
  const sy = y - iy < 0.5 ? -1 : 1;
  const sz = z - iz < 0.5 ? -1 : 1;
  const most2 = (radius * SPECK_SPREAD) ** 2;
  let bare = 1;
  for (let i = 0; i < 8; i++) {
    const cx = ix + ((i & 1) === 0 ? 0 : sx);
    const cy = iy + ((i & 2) === 0 ? 0 : sy);
    const cz = iz + ((i & 4) === 0 ? 0 : sz);
    const word = hashCell(cx, cy, cz, seed);
    const dx = x - cx - unitOfBits(word, 0);
    const dy = y - cy - unitOfBits(word, 10);
    const dz = z - cz - unitOfBits(word, 20);
    const d2 = dx * dx + dy * dy + dz * dz;
    if (d2 > most2) continue;
    const r = radius * (0.6 + 0.8 * unitOfBits(hashAgain(word), 0));
    bare *= smoothStep(0.85 * r, 1.15 * r, Math.sqrt(d2));
  }
  return 1 - bare;
}

/**
 * Radii of both sets and the film, so that specks cover `share` of a surface on the mean. Balls of radius r in a share of
 * the volume cover the same share of any flat cut (Delesse's principle); the mean cube of the radii is 1.16 r^3, the soft
 * edge adds 1.4 %. Overlaps inside one set are few and left out, what the sets leave is film.
 */
export function speckleParameters(share: number): readonly [coarse: number, fine: number, film: number] {
  const coarse = Math.min(0.3 * share, MOST_SPECKS);
  const fine = Math.min(0.7 * share, MOST_SPECKS);
  const radius = (s: number): number => Math.cbrt(s / ((4 / 3) * Math.PI * 1.16 * 1.0135));
  const bare = (1 - coarse) * (1 - fine);
  return [radius(coarse), radius(fine), bare > 0 ? clampUnit(1 - (1 - share) / bare) : 1];
}
const MOST_SPECKS = 0.14;
