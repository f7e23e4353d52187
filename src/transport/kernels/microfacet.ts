/**
 * GGX microfacet terms as plain scalar functions for the tracer's inner loop.
 * Source: B. Walter et al., "Microfacet Models for Refraction through Rough Surfaces", EGSR 2007, eqs 33, 34;
 * E. Heitz, "Understanding the Masking-Shadowing Function", JCGT 3(2), 2014 (height-correlated G2).
 */

/** Density of microfacet normals, 1/sr; `cosH` against the mean normal, `alpha` > 0. */
export const ggxDensity = (cosH: number, alpha: number): number => {
  if (cosH <= 0) return 0;
  const a2 = alpha * alpha;
  const d = cosH * cosH * (a2 - 1) + 1;
  return a2 / (Math.PI * d * d);
};

/** Smith's Lambda. */
export const ggxLambda = (cos: number, alpha: number): number => {
  const c2 = cos * cos;
  if (c2 >= 1) return 0;
  return (Math.sqrt(1 + (alpha * alpha * (1 - c2)) / c2) - 1) / 2;
};

export const ggxMasking = (cos: number, alpha: number): number => 1 / (1 + ggxLambda(cos, alpha));

/** Height-correlated shadowing and masking. */
export const ggxShadowing = (cosO: number, cosI: number, alpha: number): number =>
  1 / (1 + ggxLambda(cosO, alpha) + ggxLambda(cosI, alpha));

/** Exact unpolarised reflectance of a dielectric boundary; `eta` = index beyond over index before; 1 past the critical angle. */
export const dielectricReflectance = (cosI: number, eta: number): number => {
  const sin2T = (1 - cosI * cosI) / (eta * eta);
  if (sin2T >= 1) return 1;
  const cosT = Math.sqrt(1 - sin2T);
  const rs = (cosI - eta * cosT) / (cosI + eta * cosT);
  const rp = (eta * cosI - cosT) / (eta * cosI + cosT);
  return (rs * rs + rp * rp) / 2;
};

/**
 * A normal visible from `view` (unit, local frame, z up, z > 0), by sampling the visible normals: E. Heitz, "Sampling the
 * GGX Distribution of Visible Normals", JCGT 7(4), 2018. Writes xyz to `out`.
 */
export function sampleVisibleNormal(
  vx: number,
  vy: number,
  vz: number,
  alpha: number,
  u: number,
  v: number,
  out: Float64Array,
): void {
  let hx = alpha * vx;
  let hy = alpha * vy;
  let hz = vz;
  const inv = 1 / Math.sqrt(hx * hx + hy * hy + hz * hz);
  hx *= inv;
  hy *= inv;
  hz *= inv;
  const len2 = hx * hx + hy * hy;
  const t1x = len2 > 0 ? -hy / Math.sqrt(len2) : 1;
  const t1y = len2 > 0 ? hx / Math.sqrt(len2) : 0;
  const t2x = -hz * t1y;
  const t2y = hz * t1x;
  const t2z = hx * t1y - hy * t1x;
  const r = Math.sqrt(u);
  const phi = 2 * Math.PI * v;
  const p1 = r * Math.cos(phi);
  const s = 0.5 * (1 + hz);
  const p2 = (1 - s) * Math.sqrt(Math.max(0, 1 - p1 * p1)) + s * r * Math.sin(phi);
  const p3 = Math.sqrt(Math.max(0, 1 - p1 * p1 - p2 * p2));
  const nx = alpha * (p1 * t1x + p2 * t2x + p3 * hx);
  const ny = alpha * (p1 * t1y + p2 * t2y + p3 * hy);
  const nz = Math.max(1e-9, p2 * t2z + p3 * hz);
  const norm = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz);
  out[0] = nx * norm;
  out[1] = ny * norm;
  out[2] = nz * norm;
}
