/**
 * Sample points for one pixel: two-dimensional Sobol points, shuffled and Owen-scrambled anew for every pair of dimensions
 * (B. Burley, "Practical Hash-based Owen Scrambling", JCGT 9(4), 2020). The first 2^k points of a pixel stratify every pair
 * at once, whatever k; pixels and pairs are independent. Integer arithmetic only, so the same on every machine.
 */
export interface PixelSampler {
  /** The last pair drawn, each in [0, 1). */
  readonly pair: Float64Array;
  /** Begin sample `index` (0, 1, 2, ...) of a pixel. */
  start(pixel: number, seed: number, index: number): void;
  /** Draw the next pair into `pair`. */
  next(): void;
}

/** Pairs beyond this many are plain hashed random numbers: deep bounces gain nothing from stratification. */
const STRATIFIED_PAIRS = 24;
const TO_UNIT = 2 ** -32;

/** Second Sobol dimension of the four bytes of a bit-reversed-ready index: XOR of four table entries. */
const SOBOL_1 = (() => {
  const direction = new Uint32Array(32);
  let v = 0x80000000;
  for (let i = 0; i < 32; i++) {
    direction[i] = v;
    v = (v ^ (v >>> 1)) >>> 0;
  }
  const table = new Uint32Array(4 * 256);
  for (let byte = 0; byte < 4; byte++)
    for (let value = 0; value < 256; value++) {
      let x = 0;
      for (let bit = 0; bit < 8; bit++) if (value & (1 << bit)) x ^= direction[byte * 8 + bit];
      table[byte * 256 + value] = x >>> 0;
    }
  return table;
})();

export const reverseBits = (value: number): number => {
  let x = value;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return (x >>> 16) | (x << 16);
};

/** Hash whose low bits never depend on higher ones: an Owen scramble of a bit-reversed number. */
const scrambleReversed = (value: number, seed: number): number => {
  let x = (value + seed) | 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return x;
};

/** "lowbias32" by C. Wellons: a 32-bit mixer with low bias. */
export const mixBits = (value: number): number => {
  let x = value | 0;
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return x ^ (x >>> 16);
};

export function createPixelSampler(): PixelSampler {
  const pair = new Float64Array(2);
  // [pixel seed, sample index bit-reversed, pair number, sample index]
  const state = new Int32Array(4);
  return {
    pair,
    start(pixel, seed, index) {
      state[0] = mixBits(pixel ^ mixBits(seed + 0x9e3779b9));
      state[1] = reverseBits(index);
      state[2] = 0;
      state[3] = index;
    },
    next() {
      const k = state[2]++;
      const seed = mixBits(state[0] + Math.imul(k + 1, 0x9e3779b1));
      if (k >= STRATIFIED_PAIRS) {
        const a = mixBits(seed ^ mixBits(state[3]));
        pair[0] = (a >>> 0) * TO_UNIT;
        pair[1] = (mixBits(a + 0x68bc21eb) >>> 0) * TO_UNIT;
        return;
      }
      // Reversed index, shuffled: its reversal is the index of the point, and itself the first Sobol coordinate.
      const shuffled = scrambleReversed(state[1], seed);
      const index = reverseBits(shuffled);
      const y =
        SOBOL_1[index & 255] ^
        SOBOL_1[256 + ((index >>> 8) & 255)] ^
        SOBOL_1[512 + ((index >>> 16) & 255)] ^
        SOBOL_1[768 + (index >>> 24)];
      pair[0] = (reverseBits(scrambleReversed(index, mixBits(seed + 0x1b873593))) >>> 0) * TO_UNIT;
      pair[1] = (reverseBits(scrambleReversed(reverseBits(y), mixBits(seed + 0x7ed55d16))) >>> 0) * TO_UNIT;
    },
  };
}
