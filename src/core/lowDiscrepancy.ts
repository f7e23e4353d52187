/** Evenly spread points in the unit square, for quadrature that must give the same figure every time. */

const reverseBits = (word: number): number => {
  let v = word >>> 0;
  v = ((v >>> 1) & 0x55555555) | ((v & 0x55555555) << 1);
  v = ((v >>> 2) & 0x33333333) | ((v & 0x33333333) << 2);
  v = ((v >>> 4) & 0x0f0f0f0f) | ((v & 0x0f0f0f0f) << 4);
  v = ((v >>> 8) & 0x00ff00ff) | ((v & 0x00ff00ff) << 8);
  return ((v >>> 16) | (v << 16)) >>> 0;
};

/**
 * Point `index` (0 to 2^32 - 1) of the first two Sobol dimensions, each in [0, 1). Any 2^k points that start at a
 * multiple of 2^k fall one into each box of every grid of 2^k equal boxes, a power of two in each direction.
 * `scramble` (two 32-bit words) moves the set without losing that. A constant half-cell offset keeps the points of a
 * short run off the edges: pass `centredCount` = the number of points in the run.
 * Source: Sobol (1967); second dimension by the doubling of Kollig and Keller, "Efficient Multidimensional Sampling",
 * Eurographics 2002.
 */
export function sobol2(
  index: number,
  scramble: readonly [number, number] = [0, 0],
  centredCount?: number,
): readonly [number, number] {
  let second = 0;
  let direction = 0x80000000;
  for (let bits = index >>> 0; bits !== 0; bits >>>= 1) {
    if (bits & 1) second ^= direction;
    direction ^= direction >>> 1;
  }
  const offset = centredCount === undefined ? 0 : 0.5 / centredCount;
  const u = ((reverseBits(index) ^ scramble[0]) >>> 0) / 0x100000000 + offset;
  const v = ((second ^ scramble[1]) >>> 0) / 0x100000000 + offset;
  return [u < 1 ? u : u - 1, v < 1 ? v : v - 1];
}

/** Digits of `index` in a prime `base` mirrored about the point: one dimension of a Halton sequence. In [0, 1). */
export function radicalInverse(base: number, index: number): number {
  let value = 0;
  let place = 1 / base;
  for (let rest = Math.floor(index); rest > 0; rest = Math.floor(rest / base)) {
    value += (rest % base) * place;
    place /= base;
  }
  return value;
}
