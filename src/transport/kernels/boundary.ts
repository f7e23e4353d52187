/** Single-direction turns of the ray in the registers (origin xyz, direction xyz), at a point with a front normal. */

/** Mirrors the ray at (x, y, z); `toward` = direction . normal. */
export const reflectRay = (
  ray: Float64Array,
  x: number,
  y: number,
  z: number,
  toward: number,
  nx: number,
  ny: number,
  nz: number,
): void => {
  ray[0] = x;
  ray[1] = y;
  ray[2] = z;
  ray[3] -= 2 * toward * nx;
  ray[4] -= 2 * toward * ny;
  ray[5] -= 2 * toward * nz;
  unitDirection(ray);
};

/** Refracts the ray at (x, y, z) by Snell's law; `eta` = index beyond over index before, not past the critical angle. */
export const refractRay = (
  ray: Float64Array,
  x: number,
  y: number,
  z: number,
  toward: number,
  nx: number,
  ny: number,
  nz: number,
  eta: number,
): void => {
  const inv = 1 / eta;
  const cosT = Math.sqrt(Math.max(0, 1 - (1 - toward * toward) * inv * inv));
  const k = toward < 0 ? -toward * inv - cosT : -(toward * inv) + cosT;
  ray[0] = x;
  ray[1] = y;
  ray[2] = z;
  ray[3] = ray[3] * inv + nx * k;
  ray[4] = ray[4] * inv + ny * k;
  ray[5] = ray[5] * inv + nz * k;
  unitDirection(ray);
};

/** Keeps rounding from building up along a chain. */
export const unitDirection = (ray: Float64Array): void => {
  const inv = 1 / Math.sqrt(ray[3] * ray[3] + ray[4] * ray[4] + ray[5] * ray[5]);
  ray[3] *= inv;
  ray[4] *= inv;
  ray[5] *= inv;
};
