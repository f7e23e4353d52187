import { describe, expect, it } from 'vitest';
import { createPixelSampler, mixBits, reverseBits } from '../../src/transport/kernels/sampler.ts';

describe('pixel sampler', () => {
  it('puts the first 64 points of every pair into 64 different boxes, for each shape of box of area 1/64', () => {
    const sampler = createPixelSampler();
    for (const pixel of [0, 1, 77_777])
      for (let dimension = 0; dimension < 12; dimension++) {
        const points: [number, number][] = [];
        for (let i = 0; i < 64; i++) {
          sampler.start(pixel, 3, i);
          for (let k = 0; k <= dimension; k++) sampler.next();
          points.push([sampler.pair[0], sampler.pair[1]]);
        }
        for (const columns of [1, 2, 4, 8, 16, 32, 64]) {
          const rows = 64 / columns;
          const boxes = new Set(points.map(([u, v]) => Math.floor(u * columns) * rows + Math.floor(v * rows)));
          expect(boxes.size, `pixel ${pixel}, pair ${dimension}, ${columns} columns`).toBe(64);
        }
      }
  });

  it('gives different pixels, seeds and pairs different points', () => {
    const sampler = createPixelSampler();
    const draw = (pixel: number, seed: number): number => {
      sampler.start(pixel, seed, 0);
      sampler.next();
      return sampler.pair[0];
    };
    const values = [draw(0, 0), draw(1, 0), draw(0, 1), draw(65536, 0)];
    sampler.next();
    values.push(sampler.pair[0]);
    expect(new Set(values).size).toBe(5);
  });

  it('is exact integer arithmetic: known words', () => {
    expect(reverseBits(1) >>> 0).toBe(0x80000000);
    expect(reverseBits(0x0f0f00ff) >>> 0).toBe(0xff00f0f0);
    // "lowbias32" of 1, worked by hand from its definition.
    let x = 1;
    x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
    x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
    x ^= x >>> 16;
    expect(mixBits(1)).toBe(x);
  });
});
