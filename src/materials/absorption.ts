import type { Vec3 } from '../core/vec3.ts';

/** Share of light left after `pathM` in a medium that absorbs `absorptionPerM` (Beer-Lambert). */
export const transmittance = (absorptionPerM: number, pathM: number): number => Math.exp(-absorptionPerM * pathM);

/** {@link transmittance} of each channel. */
export const transmittanceRgb = (absorptionPerM: Vec3, pathM: number): Vec3 => [
  transmittance(absorptionPerM[0], pathM),
  transmittance(absorptionPerM[1], pathM),
  transmittance(absorptionPerM[2], pathM),
];

/** Absorption per metre of something that lets `t` (0..1] through over `pathM`. */
export const absorptionPerMFromTransmittance = (t: number, pathM: number): number => -Math.log(t) / pathM;

/** {@link absorptionPerMFromTransmittance} of each channel. */
export const absorptionPerMFromTransmittanceRgb = (t: Vec3, pathM: number): Vec3 => [
  absorptionPerMFromTransmittance(t[0], pathM),
  absorptionPerMFromTransmittance(t[1], pathM),
  absorptionPerMFromTransmittance(t[2], pathM),
];

/** Absorption per metre from a spectrophotometer's absorbance (decadic) over `pathM`: A ln 10 / path. */
export const absorptionPerMFromAbsorbance = (absorbance: number, pathM: number): number =>
  (absorbance * Math.LN10) / pathM;

/**
 * Phase function of scattering through an angle of cosine `cosTheta`, per steradian; `g` is the mean cosine, -1..1.
 * Source: Henyey and Greenstein, Astrophysical Journal 93, 70 (1941).
 */
export const henyeyGreenstein = (cosTheta: number, g: number): number =>
  (1 - g * g) / (4 * Math.PI * (1 + g * g - 2 * g * cosTheta) ** 1.5);

/** Scattering per metre that matters after many events (similarity relation): sigma_s (1 - g). */
export const reducedScatteringPerM = (scatteringPerM: number, g: number): number => scatteringPerM * (1 - g);

/** How light fades deep inside a cloudy drink, in the diffusion approximation; absorption well below scattering. */
export interface DiffusionFigures {
  readonly effectiveAttenuationPerM: number;
  readonly penetrationDepthM: number;
  readonly transportMeanFreePathM: number;
  readonly reducedAlbedo: number;
}

/** Source: A. Ishimaru, Wave Propagation and Scattering in Random Media, chapter 9 (diffusion approximation). */
export function diffusionFigures(absorptionPerM: number, reducedScattering: number): DiffusionFigures {
  const reducedExtinction = absorptionPerM + reducedScattering;
  const effective = Math.sqrt(3 * absorptionPerM * reducedExtinction);
  return {
    effectiveAttenuationPerM: effective,
    penetrationDepthM: 1 / effective,
    transportMeanFreePathM: 1 / reducedExtinction,
    reducedAlbedo: reducedScattering / reducedExtinction,
  };
}
