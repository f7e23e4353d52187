import Color from 'colorjs.io';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deltaE2000, labFromRec709, rec709FromLab } from '../../../src/core/color/difference.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';

describe('CIE Lab', () => {
  // ISO/CIE 11664-4; sRGB primaries against D65, computed independently.
  it.each([
    ['18 % grey', [0.18, 0.18, 0.18], [49.49611, 0, 0]],
    ['4 % grey', [0.04, 0.04, 0.04], [23.67144, 0, 0]],
    ['red', [1, 0, 0], [53.2371, 80.0901, 67.2033]],
    ['green', [0, 1, 0], [87.7355, -86.1816, 83.1866]],
    ['blue', [0, 0, 1], [32.3009, 79.1953, -107.8555]],
  ] as const)('puts %s right', (_name, rgb, lab) => {
    labFromRec709(rgb).forEach((v, i) => {
      expect(Math.abs(v - (lab[i] ?? NaN))).toBeLessThan(6e-5);
    });
  });
});

describe('Lab and back', () => {
  it('returns any linear Rec. 709 colour to 1e-10', () => {
    const channel = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(channel, channel, channel), (rgb) => {
        rec709FromLab(labFromRec709(rgb)).forEach((v, i) => {
          expect(v).toBeCloseTo(rgb[i] ?? Number.NaN, 10);
        });
      }),
      { seed: 10 },
    );
  });
});

describe('CIEDE2000', () => {
  // Sharma, Wu & Dalal, Color Res. Appl. 30(1), 21-30 (2005), table 1; tolerance half a unit of the fourth digit.
  const pairs: readonly (readonly [Vec3, Vec3, number])[] = [
    [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
    [[50, 3.1571, -77.2803], [50, 0, -82.7485], 2.8615],
    [[50, -1.3802, -84.2814], [50, 0, -82.7485], 1],
    [[50, 0, 0], [50, -1, 2], 2.3669],
    [[50, 2.49, -0.001], [50, -2.49, 0.0009], 7.1792],
    [[50, 2.49, -0.001], [50, -2.49, 0.0011], 7.2195],
    [[50, -0.001, 2.49], [50, 0.0009, -2.49], 4.8045],
    [[50, 2.5, 0], [50, 0, -2.5], 4.3065],
    [[50, 2.5, 0], [73, 25, -18], 27.1492],
    [[50, 2.5, 0], [58, 24, 15], 19.4535],
    [[60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644],
    [[22.7233, 20.0904, -46.694], [23.0331, 14.973, -42.5619], 2.0373],
    [[2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082],
  ];
  it.each(pairs)('from %j to %j is %f', (a, b, expected) => {
    expect(Math.abs(deltaE2000(a, b) - expected)).toBeLessThan(5.1e-5);
    expect(Math.abs(deltaE2000(b, a) - expected)).toBeLessThan(5.1e-5);
  });

  it('agrees with colorjs.io on 300 random pairs to 1e-6', () => {
    const lab = fc.tuple(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.double({ min: -100, max: 100, noNaN: true }),
    );
    fc.assert(
      fc.property(lab, lab, (a, b) => {
        const reference = new Color('lab-d65', [...a]).deltaE(new Color('lab-d65', [...b]), '2000');
        // The library may adapt to D50 first; compare in its own Lab.
        const [l1, a1, b1] = new Color('lab-d65', [...a]).to('lab').coords;
        const [l2, a2, b2] = new Color('lab-d65', [...b]).to('lab').coords;
        const ours = deltaE2000([l1 ?? 0, a1 ?? 0, b1 ?? 0], [l2 ?? 0, a2 ?? 0, b2 ?? 0]);
        expect(Math.abs(ours - reference)).toBeLessThan(1e-6);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});
