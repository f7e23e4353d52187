/**
 * Smooth seeded noise for surface patterns: integers and multiplications only, nothing allocated, the same in every
 * engine. Coordinates are in cells of the lattice.
 */

/**
 * Word of one lattice cell. Cells are joined by the primes of Teschner et al., "Optimized Spatial Hashing for Collision
 * Detection of Deformable Objects", VMV 2003; the mixing is a two-round multiply and shift.
 */
export function hashCell(ix: number, iy: number, iz: number, seed: number): number {
  let h = Math.imul(ix, 73856093) ^ Math.imul(iy, 19349663) ^ Math.imul(iz, 83492791) ^ Math.imul(seed, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return h ^ (h >>> 16);
}

/** Another word from a word. */
export function hashAgain(word: number): number {
  let h = Math.imul(word + 0x6d2b79f5, 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return h ^ (h >>> 16);
}

/** Ten bits of a word as a number in [0, 1): `shift` 0, 10 or 20 gives three that don't depend on one another. */
export const unitOfBits = (word: number, shift: number): number => ((word >>> shift) & 1023) / 1024;

/** The twelve edge directions of a cube, four of them twice, so that four bits choose one without a branch. */
const GRADIENTS = Float64Array.of(
  ...[1, 1, 0, -1, 1, 0, 1, -1, 0, -1, -1, 0, 1, 0, 1, -1, 0, 1, 1, 0, -1, -1, 0, -1],
  ...[0, 1, 1, 0, -1, 1, 0, 1, -1, 0, -1, -1, 1, 1, 0, 0, -1, 1, -1, 1, 0, 0, -1, -1],
);

/** A direction chosen by a lattice word, times the way from its corner. */
function gradientDot(word: number, x: number, y: number, z: number): number {
  const i = 3 * (Math.imul(word ^ (word >>> 15), 0x2c1b3c6d) >>> 28);
  return GRADIENTS[i] * x + GRADIENTS[i + 1] * y + GRADIENTS[i + 2] * z;
}

/**
 * Gradient noise, mean 0.5, in 0..1, twice differentiable, features one cell wide.
 * Source: Perlin, "Improving Noise", SIGGRAPH 2002, with hashed gradients.
 */
export function gradientNoise(x: number, y: number, z: number, seed: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  const fx = x - ix;
  const fy = y - iy;
  const fz = z - iz;
  const u = fx * fx * fx * (fx * (fx * 6 - 15) + 10);
  const v = fy * fy * fy * (fy * (fy * 6 - 15) + 10);
  const w = fz * fz * fz * (fz * (fz * 6 - 15) + 10);
  const s = Math.imul(seed, 0x9e3779b1);
  const x0 = Math.imul(ix, 73856093);
  const x1 = (x0 + 73856093) | 0;
  const y0 = Math.imul(iy, 19349663);
  const y1 = (y0 + 19349663) | 0;
  const z0 = Math.imul(iz, 83492791) ^ s;
  const z1 = (Math.imul(iz, 83492791) + 83492791) ^ s;
  const a = gradientDot(x0 ^ y0 ^ z0, fx, fy, fz);
  const b = gradientDot(x1 ^ y0 ^ z0, fx - 1, fy, fz);
  const c = gradientDot(x0 ^ y1 ^ z0, fx, fy - 1, fz);
  const d = gradientDot(x1 ^ y1 ^ z0, fx - 1, fy - 1, fz);
  const e = gradientDot(x0 ^ y0 ^ z1, fx, fy, fz - 1);
  const f = gradientDot(x1 ^ y0 ^ z1, fx - 1, fy, fz - 1);
  const g = gradientDot(x0 ^ y1 ^ z1, fx, fy - 1, fz - 1);
  const h = gradientDot(x1 ^ y1 ^ z1, fx - 1, fy - 1, fz - 1);
  const low = a + (b - a) * u + (c - a + (a - b - c + d) * u) * v;
  const high = e + (f - e) * u + (g - e + (e - f - g + h) * u) * v;
  return clampUnit(0.5 + 0.5 * (low + (high - low) * w));
}

/** Sum of two octaves of noise, the second half as wide and half as strong; mean 0.5, in 0..1. */
export function twoOctaves(x: number, y: number, z: number, seed: number): number {
  // The offset keeps the zeros of both lattices apart.
  return (
    (gradientNoise(x, y, z, seed) * 2 +
      gradientNoise(x * 2.03 + 17.31, y * 2.03 + 5.77, z * 2.03 + 29.13, seed ^ 0x5bd1)) /
    3
  );
}

export const clampUnit = (value: number): number => Math.min(1, Math.max(0, value));

/** 0 under `from`, 1 over `to`, a cubic without kinks between. `from` < `to`. */
export function smoothStep(from: number, to: number, value: number): number {
  const t = clampUnit((value - from) / (to - from));
  return t * t * (3 - 2 * t);
}

/**
 * How far a point is from the border between its nearest and second nearest seed of a jittered lattice: 0 on the border,
 * up to about 1 in the middle of a cell. Source: Worley, "A Cellular Texture Basis Function", SIGGRAPH 1996 (F2 - F1).
 */
export function cellBorderDistance(x: number, y: number, z: number, seed: number): number {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  let first = 9;
  let second = 9;
  for (let i = -1; i <= 1; i++) {
    const gapX = i === 0 ? 0 : i < 0 ? x - ix : ix + 1 - x;
    for (let j = -1; j <= 1; j++) {
      const gapY = j === 0 ? 0 : j < 0 ? y - iy : iy + 1 - y;
      for (let k = -1; k <= 1; k++) {
        const gapZ = k === 0 ? 0 : k < 0 ? z - iz : iz + 1 - z;
        if (gapX * gapX + gapY * gapY + gapZ * gapZ > second) continue;
        const word = hashCell(ix + i, iy + j, iz + k, seed);
        const dx = ix + i + 0.1 + 0.8 * unitOfBits(word, 0) - x;
        const dy = iy + j + 0.1 + 0.8 * unitOfBits(word, 10) - y;
        const dz = iz + k + 0.1 + 0.8 * unitOfBits(word, 20) - z;
        const d2 = dx * dx + dy * dy + dz * dz;
        if (d2 < first) {
          second = first;
          first = d2;
        } else if (d2 < second) {
          second = d2;
        }
      }
    }
  }
  return Math.sqrt(second) - Math.sqrt(first);
}

/** A rotation with no axis near any of the three: rows of a lattice turned by it follow no face of a box. Row-major. */
export const TURN = (() => {
  const [a, b, c] = [0.61, 0.93, 1.27];
  const [ca, sa, cb, sb, cc, sc] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b), Math.cos(c), Math.sin(c)];
  return Float64Array.of(
    ...[ca * cb, ca * sb * sc - sa * cc, ca * sb * cc + sa * sc],
    ...[sa * cb, sa * sb * sc + ca * cc, sa * sb * cc - ca * sc],
    ...[-sb, cb * sc, cb * cc],
  );
})();
