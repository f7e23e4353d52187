import { addScaled, dot, scale, type Vec3 } from '../core/vec3.ts';

/**
 * Direction of a ray after a boundary, by Snell's law in vector form.
 *
 * @param direction unit, travelling toward the surface.
 * @param normal unit, on either side; it is turned to face the ray.
 * @returns unit direction in the second medium, or null at total internal reflection.
 */
export function refractDirection(direction: Vec3, normal: Vec3, n1: number, n2: number): Vec3 | null {
  const toward = -dot(direction, normal);
  const facing = toward < 0 ? scale(normal, -1) : normal;
  const cosThetaI = Math.abs(toward);
  const ratio = n1 / n2;
  const sin2ThetaT = ratio * ratio * (1 - cosThetaI * cosThetaI);
  if (sin2ThetaT >= 1) return null;
  return addScaled(scale(direction, ratio), facing, ratio * cosThetaI - Math.sqrt(1 - sin2ThetaT));
}

/** Direction of a ray after a mirror; unit in, unit out, both along the travel of light. */
export const reflectDirection = (direction: Vec3, normal: Vec3): Vec3 =>
  addScaled(direction, normal, -2 * dot(direction, normal));

/** Least turn of a ray through a prism of apex angle A in air: 2 asin(n sin(A/2)) - A. */
export const prismMinimumDeviationRad = (n: number, apexRad: number): number =>
  2 * Math.asin(n * Math.sin(apexRad / 2)) - apexRad;

/** Focal length from the centre of a ball of index n in air, n D / (4 (n - 1)): a filled round glass, in section. */
export const ballLensFocalLengthM = (n: number, diameterM: number): number => (n * diameterM) / (4 * (n - 1));

/**
 * Focal length of a thick lens in air: 1/f = (n-1)[1/R1 - 1/R2 + (n-1)d/(n R1 R2)]. Radii are positive when the centre
 * lies on the far side; Infinity is flat.
 */
export const thickLensFocalLengthM = (n: number, radius1M: number, radius2M: number, thicknessM: number): number =>
  1 / ((n - 1) * (1 / radius1M - 1 / radius2M + ((n - 1) * thicknessM) / (n * radius1M * radius2M)));
