import { clampUnit, gradientNoise, hashCell, smoothStep, unitOfBits } from './noise.ts';

/** Growth rings about a pith beside the board, pale early wood rising to dark late wood; fibres along the grain. */
export function woodGrainMix(
  params: Float64Array,
  offset: number,
  x: number,
  y: number,
  z: number,
  seed: number,
): number {
  const axis = params[offset + 2];
  const along = axis === 0 ? x : axis === 1 ? y : z;
  const across = axis === 0 ? z : x;
  const deep = axis === 1 ? z : y;
  const word = hashCell(1, 2, 3, seed);
  // The pith lies some rings under the board and is not quite parallel to it, so rings open into arches.
  const a = across + 8 * (unitOfBits(word, 0) - 0.5) + 0.01 * along;
  const b = deep + 7 + 10 * unitOfBits(word, 10) + 0.035 * along;
  const sway = gradientNoise(along * 0.09, across * 0.22, deep * 0.22, seed) - 0.5;
  const ring = Math.sqrt(a * a + b * b) + params[offset + 3] * 5 * sway;
  const whole = Math.floor(ring);
  const f = ring - whole;
  const depth = 0.45 + 0.55 * unitOfBits(hashCell(whole, 0, 0, seed), 0);
  const rise = smoothStep(0.1, 0.88, f) * (1 - smoothStep(0.9, 1, f)) * depth;
  const fibre = gradientNoise(along * 0.35, across * 9, deep * 9, seed + 1);
  const share = params[offset + 4];
  return clampUnit(rise * (1 - share) + smoothStep(0.25, 0.8, fibre) * share);
}

/** Boards along u with gaps between them; each has a tone and a grain of its own. */
export function planksMix(u: number, v: number, seed: number, params: Float64Array, offset: number): number {
  const gap = params[offset + 3];
  const lengthCells = params[offset + 4];
  const row = Math.floor(v);
  const along = u / lengthCells + unitOfBits(hashCell(row, 11, 0, seed), 0);
  const board = Math.floor(along);
  const fu = (along - board) * lengthCells;
  const fv = v - row;
  const edge = Math.min(fu, lengthCells - fu, fv, 1 - fv);
  const inGap = 1 - smoothStep(0.35 * gap, 0.65 * gap, edge);
  if (inGap >= 1) return 1;
  const word = hashCell(row, board, 1, seed);
  const shift = 97 * unitOfBits(word, 10);
  const sway = gradientNoise(u * 0.45 + shift, v * 0.7, shift, seed);
  const lines = gradientNoise(u * 0.5 + shift, v * 13 + 4 * sway, shift, seed + 1);
  const grain = smoothStep(0.3, 0.75, 0.6 * lines + 0.4 * sway);
  const tone = clampUnit(params[offset + 5] * 0.45 * unitOfBits(word, 0) + params[offset + 6] * 0.5 * grain);
  return inGap + (1 - inGap) * tone;
}
