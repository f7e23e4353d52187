import { describe, expect, it } from 'vitest';
import { applyToPoint } from '../../../src/core/rigid.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { buildFixture } from '../../../src/fixtures/buildFixture.ts';
import type { OpticalSurface } from '../../../src/materials/surface.ts';
import { makeFixture, makeLitPanel } from '../../fixtures/sampleFixtures.ts';
import { illuminanceLux } from '../../fixtures/surfaceQuadrature.ts';
import {
  cylinderAtMiddle,
  discOffset,
  discOnAxis,
  polygon,
  rectangleOnAxis,
  rectangleParallel,
  rectanglePerpendicular,
  sphereFacing,
} from '../../helpers/formFactors.ts';

/**
 * Illuminance by plain quadrature over the surfaces that a fixture is built of, against closed forms (Howell's catalogue;
 * figures in formFactors.test.ts). Shape, placement, front side and luminance must all be right to agree.
 * Tolerances: 1e-6 where the integrand is smooth; 2e-4 where the terminator of a round source cuts through cells.
 */
const BACK: Vec3 = [0, 0, -1];

/** The lens of a spot made Lambert, for the closed forms of a disc. */
function lambertDisc(radiusM: number, luminanceNits: number): OpticalSurface[] {
  const lens = buildFixture(makeFixture({ kind: 'spot', lensDiameterM: 2 * radiusM, beamAngleDeg: 30 })).filter(
    (s) => s.emission,
  );
  return lens.map((s) => ({
    ...s,
    emission: { fixtureId: 'light', axialLuminanceNits: luminanceNits, profile: { type: 'lambert' } },
  }));
}

describe('built panels light a receiver as the rectangle formulas say', () => {
  it.each([
    [1.2, 0.6, 1, 2000, 1117.7055],
    [0.6, 0.3, 0.8, 5000, 1260.9937],
  ])('%f x %f m on the axis at %f m and %f cd/m2: %f lx', (w, h, d, l, lux) => {
    const measured = illuminanceLux(buildFixture(makeLitPanel(w, h, l)), [0, 0, d], BACK, 60);
    expect(Math.abs(measured / lux - 1)).toBeLessThan(1e-7);
    expect(Math.abs(measured / (Math.PI * l * rectangleOnAxis(w, h, d)) - 1)).toBeLessThan(1e-7);
  });

  it.each([
    [1, 1, 1, 0.1385316],
    [0.5, 0.5, 1, 0.0598641],
    [0.6, 0.3, 1, 0.0444721],
    [0.3, 0.15, 0.8, 0.0200693],
  ])('%f x %f m below a corner at %f m: F %f', (a, b, c, f) => {
    const e = illuminanceLux(buildFixture(makeLitPanel(a, b, 1000)), [a / 2, -b / 2, c], BACK, 60);
    expect(Math.abs(e / (Math.PI * 1000) - f)).toBeLessThan(6e-8);
  });

  it('0.6 x 0.3 m, parallel receiver 0.9 m aside and 0.4 m up at 0.7 m', () => {
    const e = illuminanceLux(buildFixture(makeLitPanel(0.6, 0.3, 1000)), [0.9, 0.4, 0.7], BACK, 60);
    const f = rectangleParallel(-0.3 - 0.9, 0.3 - 0.9, -0.15 - 0.4, 0.15 - 0.4, 0.7);
    expect(Math.abs(e / (Math.PI * 1000 * f) - 1)).toBeLessThan(1e-6);
  });

  it.each([
    [1, 1, 1, 0.0557342],
    [0.6, 0.3, 1, 0.00649542],
    [0.5, 0.8, 0.4, 0.1063303],
  ])('a level receiver in front of the bottom corner of an upright panel (%f, %f, %f): F %f', (a, b, c, f) => {
    // The table top before an upright panel: the receiver's normal is up, along the panel's height.
    const e = illuminanceLux(buildFixture(makeLitPanel(a, b, 1000)), [-a / 2, -b / 2, c], [0, 1, 0], 80);
    expect(Math.abs(e / (Math.PI * 1000) - f)).toBeLessThan(6e-8);
    expect(rectanglePerpendicular(a, b, c)).toBeCloseTo(f, 7);
  });

  it('a panel over and behind, tilted and rolled, matches the polygon formula at the table top', () => {
    const panel = makeLitPanel(0.9, 0.6, 3000, {
      positionM: [0.4, 0.9, -0.8],
      aimM: [0.1, 0, 0.2],
      rollDeg: 25,
    });
    const surfaces = buildFixture(panel);
    const face = surfaces.filter((s) => s.emission);
    expect(face).toHaveLength(1);
    const point: Vec3 = [-0.1, 0, 0.15];
    const corners = [
      [-0.45, -0.3, 0],
      [0.45, -0.3, 0],
      [0.45, 0.3, 0],
      [-0.45, 0.3, 0],
    ].map((p) => {
      const w = applyToPoint(face[0].worldFromLocal, [p[0], p[1], p[2]]);
      return [w[0] - point[0], w[1] - point[1], w[2] - point[2]] as const;
    });
    const e = illuminanceLux(surfaces, point, [0, 1, 0], 60);
    expect(Math.abs(e / (Math.PI * 3000 * polygon(corners, [0, 1, 0])) - 1)).toBeLessThan(1e-7);
  });

  it('gives nothing behind the panel', () => {
    expect(illuminanceLux(buildFixture(makeLitPanel(1, 1, 1000)), [0, 0, -1], [0, 0, 1], 20)).toBe(0);
  });
});

describe('built round sources light a receiver as the closed forms say', () => {
  it.each([
    [1000, 0.5, 1, 628.3185],
    [1000, 0.3, 1.5, 120.8305],
    [5000, 0.15, 0.6, 923.9978],
  ])('a lens of %f cd/m2, r %f m, on its axis at %f m: %f lx', (l, r, d, lux) => {
    const e = illuminanceLux(lambertDisc(r, l), [0, 0, d], BACK, 60);
    expect(Math.abs(e / lux - 1)).toBeLessThan(2e-7);
    expect(discOnAxis(r, d) * Math.PI * l).toBeCloseTo(lux, 3);
  });

  it.each([
    [0.5, 1, 0.5, 0.1464466],
    [0.5, 1, 1, 0.0658784],
    [0.3, 1.5, 0.75, 0.0252675],
  ])('a lens r %f at %f m seen from %f m aside: F %f', (r, h, a, f) => {
    const e = illuminanceLux(lambertDisc(r, 1000), [a, 0, h], BACK, 60);
    expect(Math.abs(e / (Math.PI * 1000) - f)).toBeLessThan(6e-8);
    expect(discOffset(r, h, a)).toBeCloseTo(f, 7);
  });

  it('a bulb of 10 000 cd/m2, r 0.1 m, 1 m off: 314.1593 lx from any side', () => {
    // Peak intensity of a sphere: L pi r^2.
    const bulb = makeFixture({
      kind: 'bulb',
      diameterM: 0.2,
      output: { unit: 'peakCandela', value: 1e4 * Math.PI * 0.01 },
    });
    const sides: Vec3[] = [
      [0, 0, 1],
      [0, 1, 0],
      [-0.6, 0, -0.8],
    ];
    for (const at of sides) {
      const e = illuminanceLux(buildFixture(bulb), at, [-at[0], -at[1], -at[2]], 200);
      expect(Math.abs(e / 314.1593 - 1)).toBeLessThan(2e-4);
      expect(Math.abs(e / (Math.PI * 1e4 * sphereFacing(0.1, 1)) - 1)).toBeLessThan(2e-4);
    }
  });

  it.each([
    [0.026, 1.2, 0.5],
    [0.026, 0.6, 0.05],
    [0.2, 0.3, 0.25],
  ])('a tube %f m thick, %f m long, at %f m from its axis', (diameter, length, d) => {
    // Peak intensity of a cylinder square on: L 2 r l.
    const tube = makeFixture({
      kind: 'tube',
      diameterM: diameter,
      lengthM: length,
      output: { unit: 'peakCandela', value: 5000 * diameter * length },
    });
    const f = cylinderAtMiddle(diameter / 2, length, d);
    for (const at of [
      [0, 0, d],
      [0, -d, 0],
    ] satisfies Vec3[]) {
      const e = illuminanceLux(buildFixture(tube), at, [0, -at[1] / d, -at[2] / d], 220);
      expect(Math.abs(e / (Math.PI * 5000 * f) - 1)).toBeLessThan(4e-4);
    }
  });
});
