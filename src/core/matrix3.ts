import type { Vec3 } from './vec3.ts';

/** Row-major 3 x 3. */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];

export const IDENTITY_3: Matrix3 = [1, 0, 0, 0, 1, 0, 0, 0, 1];

export const diagonalMatrix3 = (d: Vec3): Matrix3 => [d[0], 0, 0, 0, d[1], 0, 0, 0, d[2]];

/** matrix * column vector. */
export const applyMatrix3 = (m: Matrix3, v: Vec3): Vec3 => [
  m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
  m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
  m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
];

/** First `inner`, then `outer`. */
export const multiplyMatrix3 = (outer: Matrix3, inner: Matrix3): Matrix3 => {
  const c0 = applyMatrix3(outer, [inner[0], inner[3], inner[6]]);
  const c1 = applyMatrix3(outer, [inner[1], inner[4], inner[7]]);
  const c2 = applyMatrix3(outer, [inner[2], inner[5], inner[8]]);
  return [c0[0], c1[0], c2[0], c0[1], c1[1], c2[1], c0[2], c1[2], c2[2]];
};

/** Inverse by the adjugate; entries are not finite when the matrix is singular. */
export const invertMatrix3 = (m: Matrix3): Matrix3 => {
  const [a, b, c, d, e, f, g, h, i] = m;
  const r = 1 / (a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g));
  return [
    (e * i - f * h) * r,
    (c * h - b * i) * r,
    (b * f - c * e) * r,
    (f * g - d * i) * r,
    (a * i - c * g) * r,
    (c * d - a * f) * r,
    (d * h - e * g) * r,
    (b * g - a * h) * r,
    (a * e - b * d) * r,
  ];
};
