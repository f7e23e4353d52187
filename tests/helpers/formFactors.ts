/**
 * Closed-form configuration factors F (E = pi L F for a Lambert source of luminance L), for checks against quadrature and
 * the tracer. Nothing here comes from src. Catalogue numbers: J. R. Howell, "A Catalog of Radiation Heat Transfer
 * Configuration Factors". Formulas are from memory of that catalogue; each is checked in
 * tests/reference/illuminance/formFactors.test.ts against independently computed figures.
 */
export type Point = readonly [number, number, number];

/** Element parallel to a rectangle a x b, straight below one of its corners, at distance c (B-3). Odd in a and in b. */
export function rectangleBelowCorner(a: number, b: number, c: number): number {
  const x = a / c;
  const y = b / c;
  const rx = Math.sqrt(1 + x * x);
  const ry = Math.sqrt(1 + y * y);
  return ((x / rx) * Math.atan(y / rx) + (y / ry) * Math.atan(x / ry)) / (2 * Math.PI);
}

/** Element parallel to a rectangle x0..x1 by y0..y1 in a plane at distance c, standing below the origin. */
export const rectangleParallel = (x0: number, x1: number, y0: number, y1: number, c: number): number =>
  rectangleBelowCorner(x1, y1, c) -
  rectangleBelowCorner(x0, y1, c) -
  rectangleBelowCorner(x1, y0, c) +
  rectangleBelowCorner(x0, y0, c);

/** Element on the axis of a centred rectangle, parallel to it. */
export const rectangleOnAxis = (width: number, height: number, c: number): number =>
  4 * rectangleBelowCorner(width / 2, height / 2, c);

/**
 * Element perpendicular to the rectangle's plane, at distance c straight in front of the rectangle's bottom corner, its
 * normal along the height b; the rectangle runs a along the edge and b up (B-4).
 */
export function rectanglePerpendicular(a: number, b: number, c: number): number {
  const r = Math.sqrt(b * b + c * c);
  return (Math.atan(a / c) - (c / r) * Math.atan(a / r)) / (2 * Math.PI);
}

/** Element on the axis of a disc, parallel to it (B-12 on the axis). */
export const discOnAxis = (radius: number, distance: number): number => radius ** 2 / (radius ** 2 + distance ** 2);

/** Element parallel to a disc at distance h, displaced a from its axis (B-13). */
export function discOffset(radius: number, h: number, a: number): number {
  if (a === 0) return discOnAxis(radius, h);
  const hh = h / a;
  const rr = radius / a;
  const z = 1 + hh * hh + rr * rr;
  return (1 - (z - 2 * rr * rr) / Math.sqrt(z * z - 4 * rr * rr)) / 2;
}

/** Element that faces a sphere's centre, at distance d from the centre. */
export const sphereFacing = (radius: number, d: number): number => (radius / d) ** 2;

/** Element that faces a cylinder's axis square on at its mid-length, at distance d from the axis (two of B-31). */
export function cylinderAtMiddle(radius: number, length: number, d: number): number {
  const h = d / radius;
  const l = length / 2 / radius;
  const x = (1 + h) ** 2 + l * l;
  const y = (1 - h) ** 2 + l * l;
  const half =
    Math.atan(l / Math.sqrt(h * h - 1)) / (Math.PI * h) +
    (l / Math.PI) *
      (((x - 2 * h) / (h * Math.sqrt(x * y))) * Math.atan(Math.sqrt((x * (h - 1)) / (y * (h + 1)))) -
        Math.atan(Math.sqrt((h - 1) / (h + 1))) / h);
  return 2 * half;
}

/**
 * Element at the origin with unit normal n to a polygon wholly above its horizon: F = (1/2 pi) |sum theta_i gamma_i . n|
 * (J. H. Lambert, Photometria, 1760; J. Arvo, "The irradiance Jacobian for partially occluded polyhedral sources",
 * SIGGRAPH 1994).
 */
export function polygon(corners: readonly Point[], n: Point): number {
  const units = corners.map((p) => scaled(p, 1 / Math.hypot(...p)));
  let sum = 0;
  units.forEach((p, i) => {
    const q = units[(i + 1) % units.length];
    const across = crossed(p, q);
    const sine = Math.hypot(...across);
    sum += (Math.atan2(sine, dotted(p, q)) * dotted(across, n)) / sine;
  });
  return Math.abs(sum) / (2 * Math.PI);
}

/** Between two equal, directly opposed rectangles a x b at distance c (C-11). */
export function oppositeRectangles(a: number, b: number, c: number): number {
  const x = a / c;
  const y = b / c;
  const rx = Math.sqrt(1 + x * x);
  const ry = Math.sqrt(1 + y * y);
  return (
    (2 / (Math.PI * x * y)) *
    (Math.log((rx * rx * ry * ry) / (1 + x * x + y * y)) / 2 +
      x * ry * Math.atan(x / ry) +
      y * rx * Math.atan(y / rx) -
      x * Math.atan(x) -
      y * Math.atan(y))
  );
}

/** From a rectangle w x l to a rectangle h x l that stands on their common edge l (C-14). */
export function perpendicularRectangles(wide: number, high: number, common: number): number {
  const w = wide / common;
  const h = high / common;
  const s = w * w + h * h;
  const logTerm =
    Math.log(((1 + w * w) * (1 + h * h)) / (1 + s)) +
    w * w * Math.log((w * w * (1 + s)) / ((1 + w * w) * s)) +
    h * h * Math.log((h * h * (1 + s)) / ((1 + h * h) * s));
  return (
    (w * Math.atan(1 / w) + h * Math.atan(1 / h) - Math.sqrt(s) * Math.atan(1 / Math.sqrt(s)) + logTerm / 4) /
    (Math.PI * w)
  );
}

/** From disc 1 to coaxial disc 2 at distance h (C-41). */
export function coaxialDiscs(r1: number, r2: number, h: number): number {
  const x = 1 + (1 + (r2 / h) ** 2) / (r1 / h) ** 2;
  return (x - Math.sqrt(x * x - 4 * (r2 / r1) ** 2)) / 2;
}

const scaled = (p: Point, s: number): Point => [p[0] * s, p[1] * s, p[2] * s];
const dotted = (p: Point, q: Point): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
const crossed = (p: Point, q: Point): Point => [
  p[1] * q[2] - p[2] * q[1],
  p[2] * q[0] - p[0] * q[2],
  p[0] * q[1] - p[1] * q[0],
];
