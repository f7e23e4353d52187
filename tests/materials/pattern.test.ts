import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import {
  meanPatternMix,
  type Pattern,
  patternMix,
  patternNumbers,
  patternSchema,
} from '../../src/materials/pattern.ts';
import { gradientNoise, hashCell } from '../../src/materials/patterns/noise.ts';
import { PATTERN_PARAMETERS, patternMixAt } from '../../src/materials/patterns/patternMixAt.ts';

const TYPES = patternSchema.options.map((option) => option.shape.type.value);
const patternOf = (type: string, more: object = {}): Pattern =>
  patternSchema.parse({ type, secondRgb: [0.1, 0.1, 0.1], ...more });

/** The pattern as a kernel reads it: numbers at an offset in one flat array. */
function kernelOf(pattern: Pattern, narrow = (v: number): number => v) {
  const { kind, params } = patternNumbers(pattern);
  const flat = new Float64Array(5 + PATTERN_PARAMETERS);
  flat.set(params.map(narrow), 5);
  return (x: number, y: number, z: number): number => patternMixAt(kind, flat, 5, x, y, z);
}

/** Places the size of a set, at random. */
function placesOf(seed: number, sizeM = 1): () => [number, number, number] {
  const random = createRandom(seed);
  return () => [(random() - 0.5) * sizeM, (random() - 0.5) * sizeM, (random() - 0.5) * sizeM];
}

describe('hash of a lattice cell', () => {
  // The formula in Python with unbounded integers cut to 32 bits after each step.
  it.each([
    [[0, 0, 0, 0], 0],
    [[1, 2, 3, 4], 3145184162],
    [[-1, -2, -3, 5], 425895195],
    [[1000003, -77, 12, 16777215], 3163204504],
  ] as const)('of %j is %i exactly', ([x, y, z, seed], word) => {
    expect(hashCell(x, y, z, seed) >>> 0).toBe(word);
  });
});

describe('gradient noise', () => {
  it('is 0.5 on every lattice point (Perlin 2002: gradients times nothing)', () => {
    for (const p of [-3, 0, 7]) expect(gradientNoise(p, 2 * p + 1, -p, 9)).toBe(0.5);
  });

  it('has mean 0.5 to 0.005 over 40 000 random points', () => {
    const place = placesOf(3, 500);
    let sum = 0;
    for (let i = 0; i < 40000; i++) sum += gradientNoise(...place(), 77);
    // Standard deviation about 0.13: three standard errors are 0.002.
    expect(Math.abs(sum / 40000 - 0.5)).toBeLessThan(0.005);
  });
});

describe.each(TYPES)('pattern %s', (type) => {
  const pattern = patternOf(type);
  const mix = kernelOf(pattern);

  it('stays in 0..1 and uses most of it', () => {
    const place = placesOf(1);
    let [least, most] = [2, -1];
    for (let i = 0; i < 40000; i++) {
      const m = mix(...place());
      least = Math.min(least, m);
      most = Math.max(most, m);
    }
    expect(least).toBeGreaterThanOrEqual(0);
    expect(most).toBeLessThanOrEqual(1);
    expect(most - least).toBeGreaterThan(0.5);
  });

  it('is the same for the same seed, other for another, and the same through patternMix', () => {
    const place = placesOf(2);
    const again = kernelOf(patternOf(type));
    const other = kernelOf(patternOf(type, { seed: 2 }));
    let differs = 0;
    for (let i = 0; i < 2000; i++) {
      const p = place();
      const m = mix(...p);
      expect(again(...p)).toBe(m);
      if (i < 50) expect(patternMix(pattern, ...p)).toBe(m);
      if (other(...p) !== m) differs++;
    }
    expect(differs).toBeGreaterThan(5);
  });

  it('has no seam: along 60 random lines the steepest place is smooth when looked at closely', () => {
    const place = placesOf(4);
    for (let line = 0; line < 60; line++) {
      let a = place();
      const along = place();
      const far = 20 * pattern.scaleM;
      let b: typeof a = [a[0] + far * along[0], a[1] + far * along[1], a[2] + far * along[2]];
      const steps = 400;
      const at = (t: number): typeof a => [
        a[0] + (b[0] - a[0]) * t,
        a[1] + (b[1] - a[1]) * t,
        a[2] + (b[2] - a[2]) * t,
      ];
      let [steepest, where] = [0, 0];
      for (let i = 0; i < steps; i++) {
        const rise = Math.abs(mix(...at(i / steps)) - mix(...at((i + 1) / steps)));
        if (rise > steepest) [steepest, where] = [rise, i];
      }
      [a, b] = [at(where / steps), at((where + 1) / steps)];
      // Halve toward the larger rise. A jump would stay; a slope goes to nothing.
      for (let k = 0; k < 22; k++) {
        const middle = at(0.5);
        const m = mix(...middle);
        if (Math.abs(mix(...a) - m) > Math.abs(m - mix(...b))) b = middle;
        else a = middle;
      }
      expect(Math.abs(mix(...a) - mix(...b))).toBeLessThan(1e-3);
    }
  });

  it('means the same when its parameters are stored as 32-bit floats', () => {
    const narrow = kernelOf(pattern, Math.fround);
    const place = placesOf(5);
    let off = 0;
    for (let i = 0; i < 2000; i++) {
      const p = place();
      off += Math.abs(narrow(...p) - mix(...p)) / 2000;
    }
    expect(off).toBeLessThan(0.005);
  });
});

describe('mean of a pattern', () => {
  // Mean share of the second colour with the default parameters, from 200 000 random points of a seed not used elsewhere.
  it.each([
    ['woodGrain', 0.35],
    ['stone', 0.26],
    ['terrazzo', 0.47],
    ['linen', 0.39],
    ['leather', 0.404],
    ['tiles', 0.087],
    ['planks', 0.23],
    ['plaster', 0.5],
    ['speckle', 0.06],
    ['scratches', 0.0065],
    ['brushed', 0.5],
  ])('of %s is %d', (type, stated) => {
    expect(Math.abs(meanPatternMix(patternOf(type)) - stated)).toBeLessThan(0.015);
  });

  it.each(TYPES)('of %s is what random points give, to 0.02', (type) => {
    const pattern = patternOf(type);
    const mix = kernelOf(pattern);
    const place = placesOf(6, 50 * pattern.scaleM * (type === 'planks' ? 8 : 1));
    let sum = 0;
    for (let i = 0; i < 40000; i++) sum += mix(...place());
    expect(Math.abs(sum / 40000 - meanPatternMix(pattern))).toBeLessThan(0.02);
  });

  // Share of a flat cut = share of the volume: Delesse 1847, in any text on stereology.
  it.each([0.005, 0.03, 0.12, 0.4, 1])('of specks of share %d is that share on a level face', (share) => {
    const mix = kernelOf(patternOf('speckle', { share }));
    const place = placesOf(7, 1);
    const n = 200000;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const [x, , z] = place();
      sum += mix(x, 0.0017, z);
    }
    // Overlap inside one set takes a little away; three standard errors of the sampling.
    expect(Math.abs(sum / n - share)).toBeLessThan(0.03 * share + 3 * Math.sqrt((share * (1 - share)) / n));
  });

  it.each([0.2, 1])(
    'of scratches of density %d is mean disc area times thickness over cell, on a level face',
    (density) => {
      const pattern = patternOf('scratches', { density, widthM: 0.0002 });
      const mix = kernelOf(pattern);
      const place = placesOf(8, 1);
      const n = 400000;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const [x, , z] = place();
        sum += mix(x, 0.0017, z);
      }
      const mean = meanPatternMix(pattern);
      expect(Math.abs(sum / n - mean)).toBeLessThan(0.02 * mean + 3 * Math.sqrt(mean / n));
    },
  );
});

describe('where a pattern lies', () => {
  it('on a sweep runs level over the floor and on up the rise without a change of scale', () => {
    const mix = kernelOf(patternOf('tiles', { plane: 'hanging' }));
    // 30 mm forward on the floor is 30 mm down the rise.
    expect(mix(0.02, 0, 0.03)).toBeCloseTo(mix(0.02, -0.03, 0), 12);
  });

  it('of tiles of 100 mm has joints every 100 mm and none half way', () => {
    const mix = kernelOf(patternOf('tiles', { variation: 0 }));
    expect(mix(0.3, 0, 0.05)).toBe(1);
    expect(mix(0.35, 0, 0.1)).toBe(1);
    expect(mix(0.35, 0, 0.05)).toBe(0);
  });
});
