import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degFromRad, radFromDeg } from '../../../src/core/units.ts';
import {
  brewsterAngleRad,
  conductorReflectance,
  criticalAngleRad,
  dielectricReflectance,
  diffuseReflectanceInside,
  diffuseReflectanceOutside,
  polarisedReflectance,
  radianceRatioAcross,
  refractedCosine,
  slabReflectance,
  slabTransmittance,
} from '../../../src/materials/fresnel.ts';

const cosDeg = (angleDeg: number): number => Math.cos(radFromDeg(angleDeg));
/** Half a unit of the sixth digit, as the figures are printed. */
const SIX_DIGITS = 6e-7;

// Born & Wolf, Principles of Optics, section 1.5.2 (from memory); figures computed independently.
describe('dielectric reflectance from air', () => {
  const angles = [0, 45, 60, 75, 80, 85];
  it.each([
    [1.333, [0.020373, 0.027898, 0.059691, 0.212378, 0.347917, 0.583523], 53.12323, 0.078271, 48.60663],
    [1.49, [0.038725, 0.048845, 0.087521, 0.251156, 0.385989, 0.611656], 56.13282, 0.143566, 42.15518],
    [1.5, [0.04, 0.05024, 0.089187, 0.253061, 0.387704, 0.6128], 56.30993, 0.147929, 41.81031],
    [1.52, [0.04258, 0.053045, 0.092483, 0.256715, 0.39095, 0.614923], 56.65929, 0.156692, 41.13951],
    [1.545, [0.045858, 0.056578, 0.09654, 0.261016, 0.394685, 0.617295], 57.08707, 0.1677, 40.33452],
  ] as const)('index %f', (n, reflectances, brewsterDeg, sAtBrewster, criticalDeg) => {
    reflectances.forEach((r, i) => {
      expect(Math.abs(dielectricReflectance(cosDeg(angles[i] ?? 0), 1, n) - r)).toBeLessThan(SIX_DIGITS);
    });
    const brewsterRad = brewsterAngleRad(1, n);
    expect(degFromRad(brewsterRad)).toBeCloseTo(brewsterDeg, 5);
    const atBrewster = polarisedReflectance(Math.cos(brewsterRad), 1, n);
    expect(Math.abs(atBrewster.s - sAtBrewster)).toBeLessThan(SIX_DIGITS);
    expect(atBrewster.p).toBeLessThan(1e-28);
    expect(degFromRad(criticalAngleRad(n, 1) ?? 0)).toBeCloseTo(criticalDeg, 5);
    expect(criticalAngleRad(1, n)).toBeNull();
  });

  it.each([
    [1.49, 60, 0.173098, 0.001945],
    [1.49, 75, 0.394994, 0.107319],
    [1.49, 80, 0.534584, 0.237394],
    [1.5, 60, 0.176571, 0.001802],
  ])('splits index %f at %f degrees into s %f, p %f', (n, angleDeg, s, p) => {
    const r = polarisedReflectance(cosDeg(angleDeg), 1, n);
    expect(Math.abs(r.s - s)).toBeLessThan(SIX_DIGITS);
    expect(Math.abs(r.p - p)).toBeLessThan(SIX_DIGITS);
  });

  it('reflects 0.190653 of a panel in gloss acrylic (index 1.49) at 71.56505 degrees', () => {
    expect(Math.abs(dielectricReflectance(cosDeg(71.56505), 1, 1.49) - 0.190653)).toBeLessThan(SIX_DIGITS);
  });

  it('is not the fifth-power approximation: at 60 degrees, index 1.49, that gives 0.068765, 21 % too little', () => {
    const r0 = dielectricReflectance(1, 1, 1.49);
    const approximate = r0 + (1 - r0) * (1 - cosDeg(60)) ** 5;
    expect(approximate).toBeCloseTo(0.068765, 6);
    expect(approximate / dielectricReflectance(cosDeg(60), 1, 1.49) - 1).toBeCloseTo(-0.2143, 3);
  });
});

describe('dielectric reflectance from inside', () => {
  it.each([
    [30, 0.05519],
    [40, 0.245291],
    [41.5, 0.54162],
  ])('index 1.5 to air at %f degrees is %f', (angleDeg, r) => {
    expect(Math.abs(dielectricReflectance(cosDeg(angleDeg), 1.5, 1) - r)).toBeLessThan(SIX_DIGITS);
  });
  it('is exactly 1 from the critical angle, 41.8103 degrees, on', () => {
    for (const angleDeg of [41.8104, 45, 60, 89.9, 90]) {
      expect(dielectricReflectance(cosDeg(angleDeg), 1.5, 1)).toBe(1);
      expect(refractedCosine(cosDeg(angleDeg), 1.5, 1)).toBeNull();
    }
  });
  it('glass 1.52 against water 1.333: 0.0042962 head on, critical 61.27943 degrees', () => {
    expect(dielectricReflectance(1, 1.52, 1.333)).toBeCloseTo(0.0042962, 7);
    expect(degFromRad(criticalAngleRad(1.52, 1.333) ?? 0)).toBeCloseTo(61.27943, 5);
  });
  it('is nothing where both sides are alike, grazing too', () => {
    expect(dielectricReflectance(0.3, 1.4, 1.4)).toBe(0);
    expect(dielectricReflectance(0, 1.4, 1.4)).toBe(0);
  });
  it('is the same both ways along one ray (Stokes) for any angle and pair of indices', () => {
    const index = fc.double({ min: 1, max: 2.5, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), index, index, (cosThetaI, n1, n2) => {
        const cosThetaT = refractedCosine(cosThetaI, n1, n2);
        const r = dielectricReflectance(cosThetaI, n1, n2);
        expect(r).toBeGreaterThanOrEqual(0);
        expect(r).toBeLessThanOrEqual(1);
        if (cosThetaT !== null && n1 !== n2) {
          expect(dielectricReflectance(cosThetaT, n2, n1)).toBeCloseTo(r, 6);
        }
      }),
      { seed: 6, numRuns: 500 },
    );
  });
});

describe('slab', () => {
  const angles = [0, 45, 60, 75, 80];
  it.each([
    [1.49, [0.92544, 0.90975, 0.8505, 0.61993, 0.45979]],
    [1.52, [0.91832, 0.90253, 0.84347, 0.61481, 0.45604]],
  ] as const)('of index %f lets through its share at 0, 45, 60, 75 and 80 degrees', (n, expected) => {
    expected.forEach((t, i) => {
      expect(Math.abs(slabTransmittance(cosDeg(angles[i] ?? 0), n) - t)).toBeLessThan(6e-6);
    });
  });
  it('of R(0) = 0.04 lets through 12/13 = 0.923077', () => {
    expect(slabTransmittance(1, 1.5)).toBeCloseTo(12 / 13, 12);
  });
  it('without absorption loses nothing; with it, less comes out than went in', () => {
    const cos = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        cos,
        fc.double({ min: 1, max: 2.5, noNaN: true }),
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        (c, n, t) => {
          expect(slabTransmittance(c, n) + slabReflectance(c, n)).toBeCloseTo(1, 9);
          expect(slabTransmittance(c, n, t) + slabReflectance(c, n, t)).toBeLessThanOrEqual(1 + 1e-12);
        },
      ),
      { seed: 7 },
    );
  });
  it('equals the sum of its first 60 inner bounces, added one by one with 20 % absorbed at each crossing', () => {
    const { s, p } = polarisedReflectance(cosDeg(60), 1, 1.5);
    const oneByOne = [s, p].map((r) => {
      let transmitted = 0;
      let reflected = r;
      let inside = 1 - r;
      for (let k = 0; k < 30; k++) {
        inside *= 0.8;
        transmitted += inside * (1 - r);
        inside *= r * 0.8;
        reflected += inside * (1 - r);
        inside *= r;
      }
      return { transmitted, reflected };
    });
    const mean = (key: 'transmitted' | 'reflected'): number =>
      oneByOne.reduce((sum, bounce) => sum + bounce[key], 0) / 2;
    expect(slabTransmittance(cosDeg(60), 1.5, 0.8)).toBeCloseTo(mean('transmitted'), 12);
    expect(slabReflectance(cosDeg(60), 1.5, 0.8)).toBeCloseTo(mean('reflected'), 12);
  });
});

describe('hemispherical mean', () => {
  it.each([
    [1.333, 0.066406, 0.474591],
    [1.49, 0.090306, 0.590246],
    [1.5, 0.091778, 0.596346],
  ])('index %f: %f outside, %f inside', (n, outside, inside) => {
    expect(Math.abs(diffuseReflectanceOutside(n) - outside)).toBeLessThan(SIX_DIGITS);
    expect(Math.abs(diffuseReflectanceInside(n) - inside)).toBeLessThan(SIX_DIGITS);
  });
  it('agrees with a direct integral of the inside, total reflection and all, to 1e-5', () => {
    const steps = 400000;
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const theta = ((i + 0.5) / steps) * (Math.PI / 2);
      sum += dielectricReflectance(Math.cos(theta), 1.5, 1) * Math.sin(2 * theta);
    }
    expect(Math.abs((sum * Math.PI) / 2 / steps - diffuseReflectanceInside(1.5))).toBeLessThan(1e-5);
  });
});

describe('radiance across a boundary', () => {
  it('grows 2.16 times into index 1.5 and 1.740688 times into 1.333, head on; out again it cancels', () => {
    // (1 - R) n^2; entering and leaving leaves (1 - R)^2.
    expect(radianceRatioAcross(1, 1, 1.5)).toBeCloseTo(2.16, 12);
    expect(radianceRatioAcross(1, 1, 1.333)).toBeCloseTo(1.740688, 6);
    expect(radianceRatioAcross(1, 1, 1.5) * radianceRatioAcross(1, 1.5, 1)).toBeCloseTo(0.96 ** 2, 12);
  });
});

describe('conductor reflectance', () => {
  it('head on is ((n - 1)^2 + k^2)/((n + 1)^2 + k^2): 0.9156 for aluminium 0.96 + 6.69i (index from memory)', () => {
    const expected = (0.04 ** 2 + 6.69 ** 2) / (1.96 ** 2 + 6.69 ** 2);
    expect(conductorReflectance(1, 0.96, 6.69)).toBeCloseTo(expected, 12);
  });
  it('becomes the dielectric formula for k = 0', () => {
    for (const angleDeg of [0, 30, 60, 85]) {
      expect(conductorReflectance(cosDeg(angleDeg), 1.5, 0)).toBeCloseTo(
        dielectricReflectance(cosDeg(angleDeg), 1, 1.5),
        10,
      );
    }
  });
  it('reaches 1 at grazing', () => {
    expect(conductorReflectance(1e-9, 0.2, 3)).toBeCloseTo(1, 6);
  });
});
