import { describe, expect, it } from 'vitest';
import { sobol2 } from '../../../src/core/lowDiscrepancy.ts';
import { createRandom } from '../../../src/core/rng.ts';
import { radFromDeg } from '../../../src/core/units.ts';
import { dot, normalize, type Vec3 } from '../../../src/core/vec3.ts';
import { dielectricReflectance } from '../../../src/materials/fresnel.ts';
import {
  ggxDirectionalAlbedo,
  ggxDistribution,
  ggxMasking,
  ggxMaskingShadowing,
  sampleVisibleNormal,
  visibleNormalPdf,
} from '../../../src/materials/ggx.ts';

const cosDeg = (angleDeg: number): number => Math.cos(radFromDeg(angleDeg));

// Walter et al., EGSR 2007, equations 33 and 34 (from memory); figures computed independently.
describe('GGX distribution', () => {
  it.each([
    [0.1, [31.83099, 2.004225, 0.048006, 0.0056213]],
    [0.25, [5.092958, 2.41465, 0.2257267, 0.0339389]],
    [0.5, [1.27324, 1.070754, 0.4157517, 0.1205434]],
    [1, [0.318309886, 0.318309886, 0.318309886, 0.318309886]],
  ] as const)('alpha %f at 0, 10, 30 and 60 degrees', (alpha, values) => {
    values.forEach((d, i) => {
      const angle = [0, 10, 30, 60][i] ?? 0;
      expect(Math.abs(ggxDistribution(cosDeg(angle), alpha) / d - 1)).toBeLessThan(2e-6);
    });
  });
  it.each([0.1, 0.25, 0.5, 1])('alpha %f: projected area of all facets is 1', (alpha) => {
    // Integral of D cos over the hemisphere, midpoint in cos^2 stretched toward the normal.
    const steps = 20000;
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const t = (i + 0.5) / steps;
      const tan2 = (alpha * alpha * t) / (1 - t);
      // d(tan2)/dt times dw = 2 pi sin dtheta = pi cos^4 d(tan2) over cos.
      const cos = 1 / Math.sqrt(1 + tan2);
      sum += (ggxDistribution(cos, alpha) * cos * Math.PI * cos ** 3 * alpha * alpha) / (1 - t) ** 2;
    }
    expect(sum / steps).toBeCloseTo(1, 9);
  });
});

describe('GGX masking', () => {
  it.each([
    [0.5, 30, 0.979992],
    [0.5, 60, 0.861002],
    [0.5, 80, 0.499151],
    [1, 30, 0.928203],
    [1, 60, 0.666667],
    [1, 80, 0.295912],
  ])('alpha %f at %i degrees shows %f of the facets', (alpha, angleDeg, g1) => {
    expect(ggxMasking(cosDeg(angleDeg), alpha)).toBeCloseTo(g1, 6);
  });
  it('from 60 degrees to 60 degrees, alpha 0.5, shows 0.755929 correlated (0.741324 were it separable)', () => {
    expect(ggxMaskingShadowing(cosDeg(60), cosDeg(60), 0.5)).toBeCloseTo(0.755929, 6);
    expect(ggxMasking(cosDeg(60), 0.5) ** 2).toBeCloseTo(0.741324, 6);
  });
});

describe('GGX visible normals', () => {
  const views: readonly (readonly [number, number])[] = [
    [0.1, 30],
    [0.3, 75],
    [0.7, 60],
    [1, 85],
  ];
  it.each(views)('alpha %f seen at %i degrees: the density integrates to 1', (alpha, angleDeg) => {
    const wo: Vec3 = [Math.sin(radFromDeg(angleDeg)), 0, cosDeg(angleDeg)];
    // Over directions h, uniform in azimuth and in the stretched variable of the distribution.
    const n = 1 << 17;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const [t, u] = sobol2(i, [0, 0], n);
      const tan2 = (alpha * alpha * t) / (1 - t);
      const cos = 1 / Math.sqrt(1 + tan2);
      const sin = Math.sqrt(1 - cos * cos);
      const h: Vec3 = [sin * Math.cos(2 * Math.PI * u), sin * Math.sin(2 * Math.PI * u), cos];
      sum += visibleNormalPdf(wo, h, alpha) / (ggxDistribution(cos, alpha) * cos);
    }
    expect(Math.abs(sum / n - 1)).toBeLessThan(2e-3);
  });

  it.each(views)(
    'alpha %f seen at %i degrees: samples have the density that they claim (chi-square)',
    (alpha, angleDeg) => {
      // 8 x 8 cells in (azimuth, t = tan^2/(alpha^2 + tan^2)); expected counts by midpoint rule on the density.
      const wo: Vec3 = [Math.sin(radFromDeg(angleDeg)), 0, cosDeg(angleDeg)];
      const cells = 8;
      const n = 1 << 15;
      const counts = new Array<number>(cells * cells).fill(0);
      const random = createRandom(7);
      for (let i = 0; i < n; i++) {
        const h = sampleVisibleNormal(wo, alpha, random(), random());
        const tan2 = (1 - h[2] * h[2]) / (h[2] * h[2]);
        const t = tan2 / (alpha * alpha + tan2);
        const azimuth = (Math.atan2(h[1], h[0]) / (2 * Math.PI) + 1) % 1;
        const cell =
          Math.min(cells - 1, Math.floor(t * cells)) * cells + Math.min(cells - 1, Math.floor(azimuth * cells));
        counts[cell] = (counts[cell] ?? 0) + 1;
      }
      const sub = 128;
      let chiSquare = 0;
      let degrees = -1;
      for (let a = 0; a < cells; a++) {
        for (let b = 0; b < cells; b++) {
          let share = 0;
          for (let i = 0; i < sub; i++) {
            for (let j = 0; j < sub; j++) {
              const t = (a + (i + 0.5) / sub) / cells;
              const u = (b + (j + 0.5) / sub) / cells;
              const tan2 = (alpha * alpha * t) / (1 - t);
              const cos = 1 / Math.sqrt(1 + tan2);
              const sin = Math.sqrt(1 - cos * cos);
              const h: Vec3 = [sin * Math.cos(2 * Math.PI * u), sin * Math.sin(2 * Math.PI * u), cos];
              share +=
                visibleNormalPdf(wo, h, alpha) / (ggxDistribution(cos, alpha) * cos) / (sub * sub * cells * cells);
            }
          }
          const expected = share * n;
          if (expected < 8) continue;
          chiSquare += ((counts[a * cells + b] ?? 0) - expected) ** 2 / expected;
          degrees++;
        }
      }
      // Mean k, standard deviation sqrt(2k): five of them.
      expect(degrees).toBeGreaterThan(20);
      expect(chiSquare).toBeLessThan(degrees + 5 * Math.sqrt(2 * degrees));
    },
  );

  it('gives unit normals that face the view', () => {
    const wo = normalize([0.9, 0.1, 0.05]);
    for (let i = 0; i < 500; i++) {
      const h = sampleVisibleNormal(wo, 0.4, ...sobol2(i, [0, 0], 500));
      expect(dot(h, h)).toBeCloseTo(1, 10);
      expect(dot(h, wo)).toBeGreaterThan(0);
    }
  });
});

// Two independent quadratures; at alpha 1 head on the exact value is 1 - ln 2. Tolerance 5e-4.
describe('GGX directional albedo, one bounce, perfect mirror facets', () => {
  it.each([
    [0.1, 0.9883, 0.9692, 0.89552],
    [0.25, 0.91581, 0.85726, 0.85555],
    [0.5, 0.68785, 0.69825, 0.80532],
    [1, 0.30685, 0.45069, 0.66819],
  ])('alpha %f at 0, 60, 80 degrees: %f, %f, %f', (alpha, at0, at60, at80) => {
    expect(Math.abs(ggxDirectionalAlbedo(1, alpha) - at0)).toBeLessThan(5e-4);
    expect(Math.abs(ggxDirectionalAlbedo(cosDeg(60), alpha) - at60)).toBeLessThan(5e-4);
    expect(Math.abs(ggxDirectionalAlbedo(cosDeg(80), alpha) - at80)).toBeLessThan(5e-4);
  });
  it('is 1 - ln 2 for alpha 1 head on', () => {
    expect(Math.abs(ggxDirectionalAlbedo(1, 1, undefined, 65536) - (1 - Math.LN2))).toBeLessThan(5e-5);
  });
  it('with a dielectric goes over to its Fresnel reflectance as the surface becomes smooth', () => {
    const fresnel = (c: number): number => dielectricReflectance(c, 1, 1.49);
    expect(ggxDirectionalAlbedo(cosDeg(60), 0.01, fresnel)).toBeCloseTo(0.087521, 3);
  });
});
