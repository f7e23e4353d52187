import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degFromRad, radFromDeg } from '../../../src/core/units.ts';
import { addScaled, cross, dot, length, normalize, scale, type Vec3 } from '../../../src/core/vec3.ts';
import { LINE_C_UM, LINE_F_UM, refractiveIndex } from '../../../src/materials/indexTables.ts';
import {
  ballLensFocalLengthM,
  prismMinimumDeviationRad,
  reflectDirection,
  refractDirection,
  thickLensFocalLengthM,
} from '../../../src/materials/refraction.ts';

const defined = (v: Vec3 | null): Vec3 => {
  if (v === null) throw new Error('total reflection where none was expected');
  return v;
};
const component = fc.double({ min: -1, max: 1, noNaN: true });
const direction = fc
  .tuple(component, component, component)
  .filter((v) => length(v) > 0.1)
  .map((v) => normalize(v));

describe("Snell's law in vector form", () => {
  it('keeps n sin(theta), the plane of incidence and unit length, and goes back the way it came', () => {
    const index = fc.double({ min: 1, max: 2, noNaN: true });
    fc.assert(
      fc.property(direction, direction, index, index, (d, n, n1, n2) => {
        const out = refractDirection(d, n, n1, n2);
        const sin1 = length(cross(d, n));
        if (out === null) {
          expect(n1 * sin1).toBeGreaterThanOrEqual(n2 * (1 - 1e-9));
          return;
        }
        expect(length(out)).toBeCloseTo(1, 9);
        expect(n2 * length(cross(out, n))).toBeCloseTo(n1 * sin1, 9);
        expect(dot(cross(d, n), out)).toBeCloseTo(0, 9);
        expect(dot(out, n) * dot(d, n)).toBeGreaterThanOrEqual(0);
        // At grazing the way back is ill conditioned.
        if (Math.abs(dot(d, n)) < 0.05) return;
        const back = defined(refractDirection(scale(out, -1), n, n2, n1));
        back.forEach((v, i) => {
          expect(v).toBeCloseTo(-(d[i] ?? Number.NaN), 6);
        });
      }),
      { seed: 8, numRuns: 400 },
    );
  });
  it('mirrors about the normal', () => {
    expect(reflectDirection(normalize([1, -1, 0]), [0, 1, 0])[1]).toBeCloseTo(Math.SQRT1_2, 12);
    expect(reflectDirection(normalize([1, -1, 0]), [0, -1, 0])[0]).toBeCloseTo(Math.SQRT1_2, 12);
  });
});

/** Turn of a ray through a prism with faces at +-A/2 about the vertical, by the vector form. */
const tracedDeviationRad = (n: number, apexRad: number, incidenceRad: number): number => {
  const face1: Vec3 = [-Math.cos(apexRad / 2), Math.sin(apexRad / 2), 0];
  const face2: Vec3 = [Math.cos(apexRad / 2), Math.sin(apexRad / 2), 0];
  const alongFace: Vec3 = [Math.sin(apexRad / 2), Math.cos(apexRad / 2), 0];
  const incoming = addScaled(scale(face1, -Math.cos(incidenceRad)), alongFace, Math.sin(incidenceRad));
  const inside = defined(refractDirection(incoming, face1, 1, n));
  const out = defined(refractDirection(inside, face2, n, 1));
  return Math.acos(dot(incoming, out));
};

// Textbook prism, 2 asin(n sin(A/2)) - A; figures computed independently.
describe('prism', () => {
  it.each([
    [60, 1.5, 37.18076],
    [60, 1.5168, 38.6467],
    [60, refractiveIndex('crown', LINE_F_UM), 39.13811],
    [60, refractiveIndex('crown', LINE_C_UM), 38.42914],
    [60, 1.333, 23.59501],
    [45, 1.5, 25.06278],
  ])('of %i degrees and index %f turns light by at least %f degrees, traced and by formula', (apex, n, deviation) => {
    const apexRad = radFromDeg(apex);
    // The wavelengths of the F and C rows are rounded to five digits.
    expect(Math.abs(degFromRad(prismMinimumDeviationRad(n, apexRad)) - deviation)).toBeLessThan(2e-5);
    const best = Math.asin(n * Math.sin(apexRad / 2));
    expect(tracedDeviationRad(n, apexRad, best)).toBeCloseTo(prismMinimumDeviationRad(n, apexRad), 7);
    for (const offset of [-0.05, 0.05]) {
      expect(degFromRad(tracedDeviationRad(n, apexRad, best + offset))).toBeGreaterThan(deviation);
    }
  });
});

/** Traces a ray parallel to the x axis at height h through spheres; where it meets the axis, and its slope. */
const traceMeridional = (
  heightM: number,
  surfaces: readonly { vertexM: number; radiusM: number; n1: number; n2: number }[],
): { axisM: number; slope: number } => {
  let point: Vec3 = [-1, heightM, 0];
  let d: Vec3 = [1, 0, 0];
  for (const { vertexM, radiusM, n1, n2 } of surfaces) {
    const centre: Vec3 = [vertexM + radiusM, 0, 0];
    const toPoint: Vec3 = [point[0] - centre[0], point[1], 0];
    const b = dot(toPoint, d);
    const root = Math.sqrt(b * b - dot(toPoint, toPoint) + radiusM * radiusM);
    point = addScaled(point, d, radiusM > 0 ? -b - root : -b + root);
    const normal = normalize([point[0] - centre[0], point[1], 0]);
    d = defined(refractDirection(d, normal, n1, n2));
  }
  return { axisM: point[0] - (point[1] * d[0]) / d[1], slope: d[1] / d[0] };
};

// Ball lens and lensmaker's equation (any optics textbook); paraxial rays traced by the vector form must agree.
describe('lenses', () => {
  it.each([
    [1.5, 0.08, 0.06, 0.02],
    [1.333, 0.08, 0.08006006, 0.04006006],
    [1.52, 0.07, 0.05115385, 0.01615385],
  ])('ball of index %f, %f m across: focal length %f m, %f m behind its back', (n, diameterM, efl, bfl) => {
    expect(ballLensFocalLengthM(n, diameterM)).toBeCloseTo(efl, 7);
    const r = diameterM / 2;
    const h = diameterM * 1e-5;
    const traced = traceMeridional(h, [
      { vertexM: 0, radiusM: r, n1: 1, n2: n },
      { vertexM: diameterM, radiusM: -r, n1: n, n2: 1 },
    ]);
    expect(-h / traced.slope).toBeCloseTo(efl, 7);
    expect(traced.axisM - diameterM).toBeCloseTo(bfl, 7);
  });

  it.each([
    [1.5, 0.04, -0.04, 0.08, 0.06],
    [1.5168, 0.1, -0.1, 0, 0.09674923],
    [1.5168, 0.1, -0.1, 0.01, 0.098426],
    [1.5, 0.05, Number.POSITIVE_INFINITY, 0, 0.1],
    [1.49, 0.035, 0.032, 0.003, -1.135238],
  ])('index %f, radii %f and %f m, %f m thick: focal length %f m', (n, r1, r2, thicknessM, f) => {
    expect(Math.abs(thickLensFocalLengthM(n, r1, r2, thicknessM) / f - 1)).toBeLessThan(1e-6);
    if (!Number.isFinite(r2)) return;
    const h = 1e-6;
    const traced = traceMeridional(h, [
      { vertexM: 0, radiusM: r1, n1: 1, n2: n },
      { vertexM: thicknessM, radiusM: r2, n1: n, n2: 1 },
    ]);
    expect(Math.abs(-h / traced.slope / f - 1)).toBeLessThan(1e-5);
  });
});
