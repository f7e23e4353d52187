/** Thin-lens relations, all in metres. */

/**
 * Distance from lens to sensor for a subject in focus at `focusDistanceM`: 1/f = 1/s + 1/v. Focused at or inside the
 * focal length there is no image; the lens then stays at its infinity stop, v = f (see `cameraDiagnostics`).
 */
export const imageDistanceM = (focalLengthM: number, focusDistanceM: number): number =>
  focusDistanceM > focalLengthM ? (focalLengthM * focusDistanceM) / (focusDistanceM - focalLengthM) : focalLengthM;

/** Size on the sensor over size of the thing, m = f / (s - f); 0 where there is no image. */
export const magnification = (focalLengthM: number, focusDistanceM: number): number =>
  imageDistanceM(focalLengthM, focusDistanceM) / focalLengthM - 1;

/** Full angle that a sensor side of `sizeM` takes in, at magnification `m` (0 is infinity): 2 atan(w / 2f(1+m)). */
export const fieldOfViewRad = (sizeM: number, focalLengthM: number, m = 0): number =>
  2 * Math.atan(sizeM / (2 * focalLengthM * (1 + m)));
