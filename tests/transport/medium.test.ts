import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { compileWorld } from '../../src/transport/index.ts';
import { createMediumKernel } from '../../src/transport/kernels/medium.ts';
import { CLEAR, mediumVolume, setOf, sphereShape, surfaceOf } from '../helpers/surfaces.ts';

const ABSORPTION = [3, 12, 40] as const;
const SCATTERING = [90, 40, 15] as const;

/** Kernel of one medium; volume 0. Words of a World are single precision. */
function mediumOf(anisotropy: number, scatteringPerM: readonly [number, number, number] = SCATTERING) {
  const drink = {
    ...mediumVolume('drink', 1.34),
    medium: { index: 1.34, absorptionPerM: ABSORPTION, scatteringPerM, anisotropy },
  };
  const ball = surfaceOf('ball', sphereShape(0.05), CLEAR, { backVolume: 'drink' });
  return createMediumKernel(compileWorld(setOf([ball], [drink])));
}

const G = [-0.6, 0, 0.0005, 0.3, 0.85, 0.97];

describe('the phase function of Henyey and Greenstein (ApJ 93, 70, 1941)', () => {
  it.each(G)('integrates to 1 over all directions and has mean cosine g, for g %d', (g) => {
    const media = mediumOf(g);
    // Midpoints in x with cos = 1 - 2 x^2 crowd toward the forward peak; for negative g the lobe is mirrored.
    const steps = 20_000;
    let integral = 0;
    let meanCosine = 0;
    for (let i = 0; i < steps; i++) {
      const x = (i + 0.5) / steps;
      const cos = (1 - 2 * x * x) * (g < 0 ? -1 : 1);
      const p = 2 * Math.PI * media.phase(0, cos) * ((4 * x) / steps);
      integral += p;
      meanCosine += p * cos;
    }
    expect(integral).toBeCloseTo(1, 5);
    expect(meanCosine).toBeCloseTo(g, 5);
  });

  it('has its closed form: (1 - g^2) / (4 pi (1 + g^2 - 2 g cos)^1.5), 0.75 over 4 pi 0.125 straight on for g .5', () => {
    const media = mediumOf(0.5);
    expect(media.phase(0, 1)).toBeCloseTo(0.75 / (4 * Math.PI * 0.125), 6);
    expect(media.phase(0, 0)).toBeCloseTo(0.75 / (4 * Math.PI * 1.25 ** 1.5), 6);
  });

  it.each(G)('is what scatterings are drawn from: mean cosine and 12 even shares, for g %d', (g) => {
    const media = mediumOf(g);
    const random = createRandom(1);
    const n = 40_000;
    const way = [0.48, -0.6, 0.64];
    const across = [0.8, 0, -0.6];
    // Shares of equal chance: the cosine below which a part u of the phase function lies, by its own integral.
    const cosineAt = (u: number): number => {
      if (Math.abs(g) < 1e-6) return 2 * u - 1;
      const s = (1 - g * g) / (1 - g + 2 * g * u);
      return (1 + g * g - s * s) / (2 * g);
    };
    const edges = Array.from({ length: 11 }, (_, i) => cosineAt((i + 1) / 12));
    const shares = new Array<number>(12).fill(0);
    let sum = 0;
    let sideways = 0;
    const ray = new Float64Array(8);
    for (let i = 0; i < n; i++) {
      ray.set([0, 0, 0, ...way]);
      media.scatter(0, ray, random(), random());
      expect(Math.abs(Math.hypot(ray[3], ray[4], ray[5]) - 1)).toBeLessThan(1e-9);
      const cos = ray[3] * way[0] + ray[4] * way[1] + ray[5] * way[2];
      shares[edges.filter((edge) => cos > edge).length]++;
      sum += cos;
      sideways += ray[3] * across[0] + ray[4] * across[1] + ray[5] * across[2];
    }
    // The cosine's spread is at most 1, so its mean is known to 1 / sqrt(n).
    expect(Math.abs(sum / n - g)).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(sideways / n)).toBeLessThan(4 / Math.sqrt(n));
    const chiSquare = shares.reduce((total, count) => total + (count - n / 12) ** 2 / (n / 12), 0);
    // 11 degrees of freedom: 31.3 is passed once in a thousand (tables of the chi-square distribution).
    expect(chiSquare).toBeLessThan(31.3);
  });
});

describe('light on its way through a medium', () => {
  const through = (
    scattering: readonly [number, number, number],
    t: number,
    carried: readonly [number, number, number],
  ) => {
    const media = mediumOf(0.5, scattering);
    const random = createRandom(7);
    const n = 60_000;
    const passed = [0, 0, 0];
    const passedSquares = [0, 0, 0];
    const scattered = [0, 0, 0];
    const scatteredSquares = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      const collided = media.travel(0, t, ...carried, random(), random());
      const [sum, squares] = collided ? [scattered, scatteredSquares] : [passed, passedSquares];
      if (collided) expect(media.collision[0]).toBeLessThan(t);
      for (let c = 0; c < 3; c++) {
        sum[c] += media.weight[c] / n;
        squares[c] += media.weight[c] ** 2 / n;
      }
    }
    const errorOf = (sum: number[], squares: number[], c: number): number => Math.sqrt((squares[c] - sum[c] ** 2) / n);
    return {
      passed,
      scattered,
      passedError: (c: number) => errorOf(passed, passedSquares, c),
      scatteredError: (c: number) => errorOf(scattered, scatteredSquares, c),
    };
  };

  for (const carried of [
    [1, 1, 1],
    [0.9, 0.2, 0.02],
    [0, 0, 0.5],
  ] as const)
    for (const t of [0.003, 0.02, 0.08])
      it(`passes exp(-sigma t) and scatters albedo (1 - exp(-sigma t)) in every colour it carries: ${carried} over ${t * 1000} mm`, () => {
        // Beer-Lambert. Coefficients differ sixfold between colours, and one draw serves all three.
        const { passed, scattered, passedError, scatteredError } = through(SCATTERING, t, carried);
        for (let c = 0; c < 3; c++) {
          if (carried[c] === 0) continue;
          const sigma = ABSORPTION[c] + SCATTERING[c];
          const left = Math.exp(-sigma * t);
          const taken = (SCATTERING[c] / sigma) * (1 - left);
          expect(Math.abs(passed[c] - left), `passed ${c}`).toBeLessThan(4 * passedError(c) + 1e-6);
          expect(Math.abs(scattered[c] - taken), `scattered ${c}`).toBeLessThan(4 * scatteredError(c) + 1e-6);
        }
      });

  it('weighs no colour by more than it is worth: weights times light carried sum to no more than was there', () => {
    // Balance over channels: sum of carried x weight is carried x value / mean of values, so at most the sum carried.
    const media = mediumOf(0.5);
    const random = createRandom(9);
    for (let i = 0; i < 2000; i++) {
      const carried = [random(), random(), random()] as const;
      media.travel(0, 0.05, ...carried, random(), random());
      const sum = carried.reduce((total, v, c) => total + v * media.weight[c], 0);
      expect(sum).toBeLessThan((carried[0] + carried[1] + carried[2]) * (1 + 1e-9));
    }
  });

  it('in a clear one loses exp(-absorption t) at once and never collides', () => {
    const media = mediumOf(0, [0, 0, 0]);
    expect(media.travel(0, 0.02, 1, 1, 1, 0.5, 0.5)).toBe(false);
    ABSORPTION.forEach((a, c) => {
      expect(media.weight[c]).toBeCloseTo(Math.exp(-a * 0.02), 7);
    });
    expect(media.index(-1)).toBe(1);
    expect(media.scatters[0]).toBe(0);
  });
});
