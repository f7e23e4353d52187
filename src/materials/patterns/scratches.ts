import { hashAgain, hashCell, smoothStep, unitOfBits } from './noise.ts';

/** Three sets of scratches, from long to short: cells of each over those of the first. */
const SCRATCH_SETS = [1, 2.7, 6.9] as const;

/**
 * Thin discs at random in space: a flat cut shows straight lines of many lengths in all directions.
 * @param halfWidthM half the thickness of a disc. @param density share of cells that hold one, 0..1.
 */
export function scratchesMix(
  x: number,
  y: number,
  z: number,
  cells: number,
  seed: number,
  halfWidthM: number,
  density: number,
): number {
  const first = scratchField(x * cells, y * cells, z * cells, seed, halfWidthM * cells, density);
  const c2 = cells * SCRATCH_SETS[1];
  const second = scratchField(x * c2, y * c2, z * c2, seed + 1, halfWidthM * c2, density);
  const c3 = cells * SCRATCH_SETS[2];
  const third = scratchField(x * c3, y * c3, z * c3, seed + 2, halfWidthM * c3, density);
  return 1 - (1 - first) * (1 - second) * (1 - third);
}

function scratchField(x: number, y: number, z: number, seed: number, halfWidth: number, density: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  const sx = x - ix < 0.5 ? -1 : 1;
  const sy = y - iy < 0.5 ? -1 : 1;
  const sz = z - iz < 0.5 ? -1 : 1;
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
    if (d2 > 0.25) continue;
    const more = hashAgain(word);
    if (unitOfBits(more, 0) >= density) continue;
    const reach = 0.3 + 0.18 * unitOfBits(more, 10);
    if (d2 > reach * reach) continue;
    // A normal evenly on the sphere.
    const nz = 2 * unitOfBits(more, 20) - 1;
    const turn = hashAgain(more);
    const phi = 2 * Math.PI * unitOfBits(turn, 0);
    const r = Math.sqrt(1 - nz * nz);
    const away = Math.abs(r * Math.cos(phi) * dx + r * Math.sin(phi) * dy + nz * dz);
    if (away > 1.4 * halfWidth) continue;
    const across = 1 - smoothStep(0.6 * halfWidth, 1.4 * halfWidth, away);
    bare *= 1 - across * (1 - smoothStep(reach - 0.04, reach, Math.sqrt(d2)));
  }
  return 1 - bare;
}

/** Mean share of a surface that scratches cover: mean disc area times thickness, over the cell, of each set. */
export function scratchCoverage(cells: number, halfWidthM: number, density: number): number {
  // Reach even in 0.3..0.48 with a rim that fades over 0.04: mean of (reach - 0.02)^2 and the rim's own spread.
  const meanSquare = (0.46 ** 3 - 0.28 ** 3) / (3 * 0.18) + 0.04 ** 2 / 20;
  let bare = 1;
  for (const set of SCRATCH_SETS) bare *= 1 - density * Math.PI * meanSquare * 2 * halfWidthM * cells * set;
  return 1 - bare;
}
