/**
 * Exact reflection at smooth boundaries. Angles are given by the cosine on the incident side, 0..1.
 * Source: M. Born and E. Wolf, Principles of Optics, section 1.5.2 (dielectrics) and 14.2 (conductors).
 */

export interface PolarisedReflectance {
  /** Electric field across the plane of incidence. */
  readonly s: number;
  /** Electric field in the plane of incidence. */
  readonly p: number;
}

/** Cosine of the refracted ray in the second medium; null at total internal reflection. */
export function refractedCosine(cosThetaI: number, n1: number, n2: number): number | null {
  const ratio = n1 / n2;
  const sin2 = ratio * ratio * (1 - cosThetaI * cosThetaI);
  return sin2 >= 1 ? null : Math.sqrt(1 - sin2);
}

/** Reflectance of a boundary from index n1 into n2 for each polarisation; 1 at and beyond the critical angle. */
export function polarisedReflectance(cosThetaI: number, n1: number, n2: number): PolarisedReflectance {
  if (n1 === n2) return { s: 0, p: 0 };
  const cosThetaT = refractedCosine(cosThetaI, n1, n2);
  if (cosThetaT === null) return { s: 1, p: 1 };
  const s = (n1 * cosThetaI - n2 * cosThetaT) / (n1 * cosThetaI + n2 * cosThetaT);
  const p = (n2 * cosThetaI - n1 * cosThetaT) / (n2 * cosThetaI + n1 * cosThetaT);
  return { s: s * s, p: p * p };
}

/** Reflectance of a boundary from index n1 into n2 for unpolarised light, 0..1. */
export function dielectricReflectance(cosThetaI: number, n1: number, n2: number): number {
  const { s, p } = polarisedReflectance(cosThetaI, n1, n2);
  return (s + p) / 2;
}

/** Angle of incidence from which all light stays in n1; null when n1 <= n2. */
export const criticalAngleRad = (n1: number, n2: number): number | null => (n1 > n2 ? Math.asin(n2 / n1) : null);

/** Angle of incidence at which no p-polarised light is reflected: atan(n2 / n1). */
export const brewsterAngleRad = (n1: number, n2: number): number => Math.atan2(n2, n1);

/**
 * Light that passes a flat sheet of index `n` in air, all inner bounces summed by intensity, unpolarised.
 * `internalTransmittance` is what one crossing leaves of the light (1 is clear).
 */
export function slabTransmittance(cosThetaI: number, n: number, internalTransmittance = 1): number {
  const { s, p } = polarisedReflectance(cosThetaI, 1, n);
  const t = internalTransmittance;
  const pass = (r: number): number => (r < 1 ? ((1 - r) ** 2 * t) / (1 - r * r * t * t) : 0);
  return (pass(s) + pass(p)) / 2;
}

/** Light that a flat sheet of index `n` in air sends back, both faces and all inner bounces, unpolarised. */
export function slabReflectance(cosThetaI: number, n: number, internalTransmittance = 1): number {
  const { s, p } = polarisedReflectance(cosThetaI, 1, n);
  const t2 = internalTransmittance ** 2;
  const back = (r: number): number => (r < 1 ? r + ((1 - r) ** 2 * r * t2) / (1 - r * r * t2) : 1);
  return (back(s) + back(p)) / 2;
}

/** Radiance after a boundary over radiance before it, along a refracted ray: (1 - R)(n2/n1)^2. */
export const radianceRatioAcross = (cosThetaI: number, n1: number, n2: number): number =>
  (1 - dielectricReflectance(cosThetaI, n1, n2)) * (n2 / n1) ** 2;

/** Reflectance of a metal of complex index n + ik in air for unpolarised light. */
export function conductorReflectance(cosThetaI: number, n: number, k: number): number {
  const cos2 = cosThetaI * cosThetaI;
  const sin2 = 1 - cos2;
  const t0 = n * n - k * k - sin2;
  const a2PlusB2 = Math.sqrt(t0 * t0 + 4 * n * n * k * k);
  const a = Math.sqrt(Math.max(0, (a2PlusB2 + t0) / 2));
  const s = (a2PlusB2 + cos2 - 2 * a * cosThetaI) / (a2PlusB2 + cos2 + 2 * a * cosThetaI);
  const t3 = cos2 * a2PlusB2 + sin2 * sin2;
  const t4 = 2 * a * cosThetaI * sin2;
  return (s + (s * (t3 - t4)) / (t3 + t4)) / 2;
}

const meanOutside = new Map<number, number>();

/**
 * Share of evenly diffuse light that a surface of relative index `n` >= 1 reflects on its outside:
 * 2 * integral of R cos sin. Kept per index; good to 1e-7.
 */
export function diffuseReflectanceOutside(n: number): number {
  const known = meanOutside.get(n);
  if (known !== undefined) return known;
  // R falls like sqrt near grazing in sin^2; equal steps of angle take that in their stride.
  const steps = 2048;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const theta = ((i + 0.5) / steps) * (Math.PI / 2);
    sum += dielectricReflectance(Math.cos(theta), 1, n) * Math.sin(2 * theta);
  }
  const mean = (sum * Math.PI) / 2 / steps;
  meanOutside.set(n, mean);
  return mean;
}

/**
 * The same from the inside, total internal reflection included: 1 - (1 - outside)/n^2. This is the light that a clear
 * coat keeps returning to the base under it.
 */
export const diffuseReflectanceInside = (n: number): number => 1 - (1 - diffuseReflectanceOutside(n)) / (n * n);
