import { describe, expect, it } from 'vitest';
import {
  coaxialDiscs,
  cylinderAtMiddle,
  discOffset,
  discOnAxis,
  oppositeRectangles,
  perpendicularRectangles,
  polygon,
  rectangleBelowCorner,
  rectangleOnAxis,
  rectanglePerpendicular,
  sphereFacing,
} from '../../helpers/formFactors.ts';

/**
 * The library that other tests lean on, against figures computed apart from it (numpy, cross-checked there by brute
 * quadrature or Monte Carlo). Howell's catalogue for the formulas; the .4153 of C-13/C-11 for squares half a side apart
 * is a published value.
 */
const UP = [0, 0, 1] as const;

describe('configuration factors', () => {
  it.each([
    [1, 1, 1, 0.1385316],
    [0.5, 0.5, 1, 0.0598641],
    [0.6, 0.3, 1, 0.0444721],
    [0.3, 0.15, 0.8, 0.0200693],
  ])('of a rectangle %f x %f below a corner at %f is %f', (a, b, c, f) => {
    expect(Math.abs(rectangleBelowCorner(a, b, c) - f)).toBeLessThan(5.1e-8);
  });

  it.each([
    [1.2, 0.6, 1, 2000, 1117.7055],
    [0.6, 0.3, 0.8, 5000, 1260.9937],
  ])('of a panel %f x %f m on its axis at %f m and %f cd/m2 gives %f lx', (w, h, d, l, lux) => {
    expect(Math.abs(Math.PI * l * rectangleOnAxis(w, h, d) - lux)).toBeLessThan(5.1e-5);
  });

  it.each([
    [1, 1, 1, 0.0557342],
    [0.6, 0.3, 1, 0.00649542],
    [0.5, 0.8, 0.4, 0.1063303],
  ])('of an upright receiver to a rectangle (%f, %f, %f) is %f', (a, b, c, f) => {
    expect(Math.abs(rectanglePerpendicular(a, b, c) - f)).toBeLessThan(5.1e-8);
  });

  it.each([
    [1000, 0.5, 1, 628.3185],
    [1000, 0.3, 1.5, 120.8305],
    [5000, 0.15, 0.6, 923.9978],
    [1000, 0.5, 0, 3141.593],
  ])('of a disc of %f cd/m2, r %f m, on its axis at %f m gives %f lx', (l, r, d, lux) => {
    expect(Math.abs(Math.PI * l * discOnAxis(r, d) - lux) / lux).toBeLessThan(2e-7);
  });

  it.each([
    [0.5, 1, 0.5, 0.1464466],
    [0.5, 1, 1, 0.0658784],
    [0.3, 1.5, 0.75, 0.0252675],
  ])('of a disc r %f at height %f seen from %f aside is %f', (r, h, a, f) => {
    expect(Math.abs(discOffset(r, h, a) - f)).toBeLessThan(5.1e-8);
  });

  it('of a sphere of 10 000 cd/m2, r 0.1 m, at 1 m gives 314.1593 lx', () => {
    expect(Math.PI * 1e4 * sphereFacing(0.1, 1)).toBeCloseTo(314.1593, 4);
  });

  it('of a polygon match the rectangle and two triangles (Monte Carlo agrees to 2e-4)', () => {
    const square = (s: number) =>
      [
        [-s, -s, 1],
        [s, -s, 1],
        [s, s, 1],
        [-s, s, 1],
      ] as const;
    expect(Math.abs(polygon(square(0.5), UP) - 0.2394565)).toBeLessThan(5.1e-8);
    expect(Math.abs(polygon(square(1), UP) - 0.5541264)).toBeLessThan(5.1e-8);
    const first = [
      [0, 0, 1],
      [1, 0, 1],
      [0, 1, 1],
    ] as const;
    expect(Math.abs(polygon(first, UP) - 0.096225)).toBeLessThan(5.1e-8);
    const second = [
      [0.2, 0.1, 0.8],
      [1.2, 0.1, 0.8],
      [0.2, 0.9, 1.1],
    ] as const;
    expect(Math.abs(polygon(second, UP) - 0.0578515)).toBeLessThan(5.1e-8);
  });

  it('between finite surfaces match the catalogue, and a unit cube closes to 1', () => {
    expect(Math.abs(oppositeRectangles(1, 1, 1) - 0.1998249)).toBeLessThan(5.1e-8);
    expect(Math.abs(oppositeRectangles(2, 1, 1) - 0.2858754)).toBeLessThan(5.1e-8);
    expect(Math.abs(oppositeRectangles(1, 1, 0.5) - 0.4152533)).toBeLessThan(5.1e-8);
    expect(Math.abs(perpendicularRectangles(1, 1, 1) - 0.2000438)).toBeLessThan(5.1e-8);
    expect(oppositeRectangles(1, 1, 1) + 4 * perpendicularRectangles(1, 1, 1)).toBeCloseTo(1, 12);
    expect(Math.abs(coaxialDiscs(1, 1, 1) - 0.381966)).toBeLessThan(5.1e-8);
    expect(Math.abs(coaxialDiscs(0.5, 1, 1) - 0.4688711)).toBeLessThan(5.1e-8);
  });

  it('of a cylinder tend to r/d when it is endless and to a flat strip when it is far', () => {
    // An endless cylinder seen square on: F = r/d, from the half-angle asin(r/d) that it fills in two dimensions.
    expect(cylinderAtMiddle(0.1, 1e6, 0.25)).toBeCloseTo(0.4, 6);
    // Far away it is a strip of 2 r x length seen square on: pi F = area / d^2.
    expect((Math.PI * cylinderAtMiddle(0.01, 0.2, 100) * 1e4) / (2 * 0.01 * 0.2)).toBeCloseTo(1, 3);
  });

  it.each([
    // Five-times rule: point / exact - 1 = (r/d)^2 for a disc (IES Lighting Handbook for the rule, from memory).
    [2, 0.0625],
    [5, 0.01],
    [10, 0.0025],
  ])('of a disc at %f diameters lie under the point formula by %f', (diameters, excess) => {
    const r = 0.5;
    const d = diameters * 2 * r;
    expect((r * r) / (d * d) / discOnAxis(r, d) - 1).toBeCloseTo(excess, 10);
  });

  it.each([
    // Sides, excess, half a unit of its last printed figure.
    [1, 0.3293, 5e-6],
    [2, 0.083016, 5e-7],
    [3, 0.036971, 5e-7],
    [5, 0.0133246, 5e-8],
    [10, 0.0033328, 5e-8],
  ])('of a square at %f sides lie under the point formula by %f', (sides, excess, halfUnit) => {
    const point = 1 / (Math.PI * sides * sides);
    expect(Math.abs(point / rectangleOnAxis(1, 1, sides) - 1 - excess)).toBeLessThan(1.02 * halfUnit);
  });
});
