/**
 * GGX microfacet distribution, isotropic, roughness alpha in (0, 1]. Directions are in a local frame with the surface
 * normal along +z.
 *
 * Sources:
 * [1] Walter, Marschner, Li, Torrance, "Microfacet Models for Refraction through Rough Surfaces", EGSR 2007.
 * [2] Heitz, "Understanding the Masking-Shadowing Function in Microfacet-Based BRDFs", JCGT 3(2), 2014.
 * [3] Heitz, "Sampling the GGX Distribution of Visible Normals", JCGT 7(4), 2018.
 */
import { sobol2 } from '../core/lowDiscrepancy.ts';
import { dot, normalize, scale, sub, type Vec3 } from '../core/vec3.ts';

/** Density of microfacet normals per steradian and unit area, [1] equation 33. `cosThetaH` > 0. */
export function ggxDistribution(cosThetaH: number, alpha: number): number {
  if (cosThetaH <= 0) return 0;
  const a2 = alpha * alpha;
  const d = cosThetaH * cosThetaH * (a2 - 1) + 1;
  return a2 / (Math.PI * d * d);
}

/** Smith's Lambda for one direction, [2] equation 72. */
export function ggxLambda(cosTheta: number, alpha: number): number {
  const cos2 = cosTheta * cosTheta;
  const tan2 = (1 - cos2) / cos2;
  return (Math.sqrt(1 + alpha * alpha * tan2) - 1) / 2;
}

/** Share of microfacets seen from one direction, [1] equation 34. */
export const ggxMasking = (cosTheta: number, alpha: number): number => 1 / (1 + ggxLambda(cosTheta, alpha));

/** Share of microfacets seen from both directions, height-correlated, [2] equation 99. */
export const ggxMaskingShadowing = (cosThetaI: number, cosThetaO: number, alpha: number): number =>
  1 / (1 + ggxLambda(cosThetaI, alpha) + ggxLambda(cosThetaO, alpha));

/** A microfacet normal in proportion to what is seen of it from `wo` (z > 0), for u1, u2 in [0, 1), [3] listing 1. */
export function sampleVisibleNormal(wo: Vec3, alpha: number, u1: number, u2: number): Vec3 {
  // Stretch to the hemisphere.
  const vh = normalize([alpha * wo[0], alpha * wo[1], wo[2]]);
  const inPlane2 = vh[0] * vh[0] + vh[1] * vh[1];
  const t1: Vec3 = inPlane2 > 0 ? [-vh[1] / Math.sqrt(inPlane2), vh[0] / Math.sqrt(inPlane2), 0] : [1, 0, 0];
  const t2: Vec3 = [vh[1] * t1[2] - vh[2] * t1[1], vh[2] * t1[0] - vh[0] * t1[2], vh[0] * t1[1] - vh[1] * t1[0]];
  // A point on the projected half disc.
  const r = Math.sqrt(u1);
  const phi = 2 * Math.PI * u2;
  const p1 = r * Math.cos(phi);
  const s = 0.5 * (1 + vh[2]);
  const p2 = (1 - s) * Math.sqrt(Math.max(0, 1 - p1 * p1)) + s * r * Math.sin(phi);
  const p3 = Math.sqrt(Math.max(0, 1 - p1 * p1 - p2 * p2));
  // Back onto the hemisphere, and unstretch.
  return normalize([
    alpha * (p1 * t1[0] + p2 * t2[0] + p3 * vh[0]),
    alpha * (p1 * t1[1] + p2 * t2[1] + p3 * vh[1]),
    Math.max(0, p1 * t1[2] + p2 * t2[2] + p3 * vh[2]),
  ]);
}

/** Density, per steradian of normals, with which {@link sampleVisibleNormal} gives `h` for `wo`, [3] equation 3. */
export const visibleNormalPdf = (wo: Vec3, h: Vec3, alpha: number): number =>
  (ggxMasking(wo[2], alpha) * Math.max(0, dot(wo, h)) * ggxDistribution(h[2], alpha)) / wo[2];

/**
 * Share of light from one direction that a rough surface reflects after a single bounce: the quadrature of
 * F G2/G1 over visible normals. What is missing from 1 with `fresnel` = 1 went into second bounces between facets.
 *
 * @param cosThetaO of the direction, (0, 1].
 * @param fresnel reflectance for the cosine between direction and facet; a perfect mirror when left out.
 * @returns 0..1, good to about 3e-4 with the default `points`.
 */
export function ggxDirectionalAlbedo(
  cosThetaO: number,
  alpha: number,
  fresnel: (cosThetaD: number) => number = () => 1,
  points = 4096,
): number {
  const wo: Vec3 = [Math.sqrt(Math.max(0, 1 - cosThetaO * cosThetaO)), 0, cosThetaO];
  const maskingO = ggxMasking(cosThetaO, alpha);
  let sum = 0;
  for (let i = 0; i < points; i++) {
    const [u1, u2] = sobol2(i, [0, 0], points);
    const h = sampleVisibleNormal(wo, alpha, u1, u2);
    const cosD = dot(wo, h);
    const wi = sub(scale(h, 2 * cosD), wo);
    if (wi[2] > 0) sum += (fresnel(cosD) * ggxMaskingShadowing(wi[2], cosThetaO, alpha)) / maskingO;
  }
  return sum / points;
}
