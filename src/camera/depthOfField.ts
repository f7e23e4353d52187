import { effectiveFNumber } from './exposure.ts';
import { magnification } from './lens.ts';
import type { Camera } from './records.ts';

/** The older convention for the blur that still passes as sharp: sensor diagonal over 1500. Others use 1730 or 1442. */
export const COC_DIAGONAL_DIVISOR = 1500;
/** Green light, where the eye and the sensor are keenest. */
export const DIFFRACTION_WAVELENGTH_M = 0.55e-6;

/** Circle of confusion as a share of the sensor's diagonal, metres. A choice of the person who judges the picture. */
export const circleOfConfusionM = (
  sensor: Pick<Camera, 'sensorWidthMm' | 'sensorHeightMm'>,
  divisor = COC_DIAGONAL_DIVISOR,
): number => Math.hypot(sensor.sensorWidthMm, sensor.sensorHeightMm) / 1000 / divisor;

/** Sharp depth along the axis. Distances from the front principal plane: the lens, in the thin-lens model. */
export interface DepthOfField {
  readonly nearM: number;
  /** Infinity when everything behind the focus is sharp. */
  readonly farM: number;
  readonly totalM: number;
  readonly hyperfocalM: number;
}

/** Focus distance from which everything to infinity is sharp, H = f^2/(N c) + f. */
export const hyperfocalM = (focalLengthM: number, fNumber: number, cocM: number): number =>
  focalLengthM ** 2 / (fNumber * cocM) + focalLengthM;

/**
 * Near and far limits of sharpness, from far to macro, for a lens whose exit pupil is `pupilRatio` times its entrance
 * pupil. Exact for a thick lens with its pupils off the principal planes; with `pupilRatio` 1 these are the usual
 * near = s(H - f)/(H + s - 2f) and far = s(H - f)/(H - s), and the total is always
 * 2f(1/m + 1/P) / [f m/(N c) - N c/(f m)].
 *
 * Derivation: seen from the entrance pupil, diameter f/N, at the distance u = f(1/m + 1/P), a point at u' throws a cone
 * that is (f/N)|u' - u|/u' wide in the plane of focus, m times that on the sensor.
 * Source of the closed form: J. Conrad, "Depth of Field in Depth" (2006).
 *
 * @returns null when the lens is focused at or inside its focal length.
 */
export function computeDepthOfField(
  focalLengthM: number,
  fNumber: number,
  focusDistanceM: number,
  cocM: number,
  pupilRatio = 1,
): DepthOfField | null {
  if (focusDistanceM <= focalLengthM) return null;
  const m = magnification(focalLengthM, focusDistanceM);
  const pupilDistanceM = focalLengthM * (1 / m + 1 / pupilRatio);
  const pupilToPrincipalM = focusDistanceM - pupilDistanceM;
  const blurShare = (fNumber * cocM) / (focalLengthM * m);
  const nearM = pupilDistanceM / (1 + blurShare) + pupilToPrincipalM;
  const farM = blurShare < 1 ? pupilDistanceM / (1 - blurShare) + pupilToPrincipalM : Number.POSITIVE_INFINITY;
  return { nearM, farM, totalM: farM - nearM, hyperfocalM: hyperfocalM(focalLengthM, fNumber, cocM) };
}

/** Diameter on the sensor of the blur of a point at `distanceM` along the axis; 0 at the focus distance. */
export function blurCircleM(
  focalLengthM: number,
  fNumber: number,
  focusDistanceM: number,
  distanceM: number,
  pupilRatio = 1,
): number {
  const m = magnification(focalLengthM, focusDistanceM);
  const pupilDistanceM = focalLengthM * (1 / m + 1 / pupilRatio);
  const fromPupilM = pupilDistanceM + distanceM - focusDistanceM;
  return (m * (focalLengthM / fNumber) * Math.abs(fromPupilM - pupilDistanceM)) / fromPupilM;
}

/**
 * Diameter of the first dark ring that diffraction draws round a point, 2.44 lambda N on the sensor, for the effective
 * f-number. Source: Born and Wolf, Principles of Optics, section 8.5.2.
 */
export const airyDiameterM = (effectiveFNumberValue: number, wavelengthM = DIFFRACTION_WAVELENGTH_M): number =>
  2.44 * wavelengthM * effectiveFNumberValue;

/** Sharpness of a camera at its settings. */
export interface CameraSharpness {
  /** Null when focused inside the focal length. */
  readonly depthOfField: DepthOfField | null;
  readonly circleOfConfusionM: number;
  readonly airyDiameterM: number;
  /** True when diffraction alone is coarser than the circle of confusion: a smaller stop no longer sharpens. */
  readonly diffractionLimited: boolean;
}

/** Depth of field and diffraction of a camera; `cocM` is the sensor diagonal over 1500 when left out. */
export function cameraSharpness(camera: Camera, cocM = circleOfConfusionM(camera)): CameraSharpness {
  const focalLengthM = camera.focalLengthMm / 1000;
  const m = magnification(focalLengthM, camera.focusDistanceM);
  const airy = airyDiameterM(effectiveFNumber(camera.apertureFNumber, m, camera.pupilRatio));
  return {
    depthOfField: computeDepthOfField(
      focalLengthM,
      camera.apertureFNumber,
      camera.focusDistanceM,
      cocM,
      camera.pupilRatio,
    ),
    circleOfConfusionM: cocM,
    airyDiameterM: airy,
    diffractionLimited: airy > cocM,
  };
}
