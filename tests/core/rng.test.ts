import { describe, expect, it } from 'vitest';
import { createRandom, createWordStream, hashWords, pcgHash, seedFromText, unitFromWord } from '../../src/core/rng.ts';

describe('integer hashes', () => {
  // The formula of Jarzynski and Olano (JCGT 9(3), 2020) compiled as C with unsigned 32-bit arithmetic.
  it.each([
    [0, 129708002],
    [1, 2831084092],
    [2, 2055130248],
    [12345, 4099845390],
    [2147483648, 566699590],
    [4294967295, 3861530882],
  ])('hashes the word %i to %i exactly', (word, hash) => {
    expect(pcgHash(word)).toBe(hash);
  });

  it('depends on the order and number of words', () => {
    expect(hashWords(1, 2)).not.toBe(hashWords(2, 1));
    expect(hashWords(1, 0)).not.toBe(hashWords(1));
    expect(hashWords(7, 8, 9)).toBe(hashWords(7, 8, 9));
  });

  // FNV-1a test vectors published with the algorithm (Fowler, Noll, Vo), from memory.
  it.each([
    ['', 0x811c9dc5],
    ['a', 0xe40c292c],
    ['foobar', 0xbf9cf968],
  ])('makes the FNV-1a seed of "%s"', (text, seed) => {
    expect(seedFromText(text)).toBe(seed);
  });
});

describe('seeded generator', () => {
  it('continues xoshiro128** 1.1 as its C reference does', () => {
    // Values printed by the authors' C code, as kept in the public test data of a 6502 port (edorfaus/xoshiro-6502).
    const next = createWordStream(0x964d4a0c, 0xd40ab895, 0xad7fdecb, 0x3006f0f0);
    expect([next(), next(), next(), next()]).toEqual([0xf1391922, 0x6fe53806, 0xa5be2840, 0xf510ee70]);
  });

  it('gives the same numbers for the same seed and others for another', () => {
    const a = createRandom(42);
    const b = createRandom(42);
    const c = createRandom(43);
    const first = Array.from({ length: 8 }, a);
    expect(Array.from({ length: 8 }, b)).toEqual(first);
    expect(Array.from({ length: 8 }, c)).not.toEqual(first);
  });

  it('has mean 1/2, variance 1/12 and no serial correlation over 100 000 numbers (3 standard errors)', () => {
    const random = createRandom(5);
    const n = 100000;
    const x = Array.from({ length: n }, random);
    const mean = x.reduce((s, v) => s + v, 0) / n;
    const variance = x.reduce((s, v) => s + (v - mean) ** 2, 0) / n;
    const serial = x.slice(1).reduce((s, v, i) => s + (v - 0.5) * ((x[i] ?? 0) - 0.5), 0) / (n - 1);
    // Standard errors: sqrt(1/12n), sqrt(1/180n), sqrt(1/144n).
    expect(Math.abs(mean - 0.5)).toBeLessThan(3 * Math.sqrt(1 / (12 * n)));
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(3 * Math.sqrt(1 / (180 * n)));
    expect(Math.abs(serial)).toBeLessThan(3 * Math.sqrt(1 / (144 * n)));
  });

  it('passes a chi-square over 256 equal cells (256 000 numbers; 99.9 % point of 255 degrees is 330.5)', () => {
    const random = createRandom(9);
    const cells = new Array<number>(256).fill(0);
    for (let i = 0; i < 256000; i++) {
      const cell = Math.floor(random() * 256);
      cells[cell] = (cells[cell] ?? 0) + 1;
    }
    const chiSquare = cells.reduce((s, count) => s + (count - 1000) ** 2 / 1000, 0);
    expect(chiSquare).toBeLessThan(330.5);
    expect(chiSquare).toBeGreaterThan(190);
  });

  it('stays below 1 as a 32-bit float', () => {
    expect(Math.fround(unitFromWord(0xffffffff))).toBeLessThan(1);
    expect(unitFromWord(0)).toBe(0);
  });
});
