/**
 * Seeded random numbers. All arithmetic is on 32-bit integers, exact in every engine, so that one seed gives one
 * picture everywhere.
 */

/**
 * Hash of one 32-bit word to one, uniform and without visible pattern.
 * Source: Jarzynski and Olano, "Hash Functions for GPU Rendering", JCGT 9(3), 2020, `pcg`.
 */
export function pcgHash(word: number): number {
  const state = (Math.imul(word, 747796405) + 2891336453) >>> 0;
  const mixed = Math.imul((state >>> ((state >>> 28) + 4)) ^ state, 277803737) >>> 0;
  return ((mixed >>> 22) ^ mixed) >>> 0;
}

/** Hash of several words in order, for example (seed, pixel, sample). */
export function hashWords(...words: readonly number[]): number {
  let h = 0;
  for (const word of words) h = pcgHash(h ^ (word >>> 0));
  return h;
}

/** A 32-bit word as a number in [0, 1): 24 bits, so that it stays under 1 as a 32-bit float too. */
export const unitFromWord = (word: number): number => (word >>> 8) / 0x1000000;

/** Seed from a text such as a record id (FNV-1a, 32 bit, over UTF-16 code units). */
export function seedFromText(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

/**
 * Words of xoshiro128**, version 1.1, from a state of four words that are not all zero.
 * Source: Blackman and Vigna, "Scrambled Linear Pseudorandom Number Generators", ACM TOMS 47(4), 2021.
 */
export function createWordStream(s0: number, s1: number, s2: number, s3: number): () => number {
  let a = s0 | 0;
  let b = s1 | 0;
  let c = s2 | 0;
  let d = s3 | 0;
  return () => {
    const times5 = Math.imul(b, 5);
    const word = Math.imul((times5 << 7) | (times5 >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return word;
  };
}

/** Independent numbers in [0, 1) from a 32-bit seed. */
export function createRandom(seed: number): () => number {
  const s0 = pcgHash(seed);
  const s1 = pcgHash(s0);
  const s2 = pcgHash(s1);
  // The hash permutes the words, so four zeros in a row can't come; the last bit guards it all the same.
  const nextWord = createWordStream(s0, s1, s2, pcgHash(s2) | 1);
  return () => unitFromWord(nextWord());
}
