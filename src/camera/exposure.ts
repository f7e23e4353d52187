import { magnification } from './lens.ts';
import type { Camera } from './records.ts';

/**
 * Calibration constant of reflected-light (spot) meters, cd s/m2: N^2/t = L S / K. ISO 2720:1974 allows 10.6 to 13.4;
 * 12.5 is what most meters and cameras use.
 */
export const REFLECTED_METER_K = 12.5;
/** Calibration constant of incident meters with a flat receptor, lx s: N^2/t = E S / C. ISO 2720:1974: 240 to 400. */
export const INCIDENT_METER_C_FLAT = 250;
/** The same for a domed receptor; ISO 2720:1974: 320 to 540. */
export const INCIDENT_METER_C_DOME = 340;
/**
 * Saturation luminance over N^2/(S t), cd s/m2: ISO 12232 saturation speed S = 78 / H with H = q L t/N^2 and q = 0.65,
 * so L = 78 / 0.65 N^2/(S t) = 120 N^2/(S t) = 1.2 x 2^EV100.
 */
export const SATURATION_CONSTANT = 78 / 0.65;
/** Luminance that a spot meter places at middle over the luminance that clips: K / 120, 3.263 stops under clipping. */
export const MIDDLE_OVER_SATURATION = REFLECTED_METER_K / SATURATION_CONSTANT;

/** Exposure value of the settings alone, EV = log2(N^2/t). */
export const evFromSettings = (fNumber: number, shutterS: number): number => Math.log2(fNumber ** 2 / shutterS);

/** Light that the settings are right for, as EV at ISO 100: log2(100 N^2 / (S t)). */
export const ev100FromSettings = (fNumber: number, shutterS: number, iso: number): number =>
  evFromSettings(fNumber, shutterS) - Math.log2(iso / 100);

/** What an incident meter reads, EV at ISO 100: log2(100 E / C). ISO 2720:1974. */
export const ev100FromIlluminance = (illuminanceLux: number, meterC = INCIDENT_METER_C_FLAT): number =>
  Math.log2((100 * illuminanceLux) / meterC);
export const illuminanceLuxFromEv100 = (ev100: number, meterC = INCIDENT_METER_C_FLAT): number =>
  (2 ** ev100 * meterC) / 100;

/** What a spot meter reads, EV at ISO 100: log2(100 L / K). ISO 2720:1974. */
export const ev100FromLuminance = (luminanceNits: number, meterK = REFLECTED_METER_K): number =>
  Math.log2((100 * luminanceNits) / meterK);
export const luminanceNitsFromEv100 = (ev100: number, meterK = REFLECTED_METER_K): number =>
  (2 ** ev100 * meterK) / 100;

/** The f-number that an incident meter gives: N = sqrt(E S t / C). Unrounded, effective (before close-up loss). */
export const meterStop = (
  illuminanceLux: number,
  iso: number,
  shutterS: number,
  meterC = INCIDENT_METER_C_FLAT,
): number => Math.sqrt((illuminanceLux * iso * shutterS) / meterC);

/** The f-number that a spot meter gives: N = sqrt(L S t / K). */
export const meterStopFromLuminance = (
  luminanceNits: number,
  iso: number,
  shutterS: number,
  meterK = REFLECTED_METER_K,
): number => Math.sqrt((luminanceNits * iso * shutterS) / meterK);

/** Illuminance that the settings need: E = C N^2 / (S t). */
export const illuminanceLuxForStop = (
  fNumber: number,
  iso: number,
  shutterS: number,
  meterC = INCIDENT_METER_C_FLAT,
): number => (meterC * fNumber ** 2) / (iso * shutterS);

/** Shutter time that the stop needs: t = C N^2 / (E S). */
export const shutterSForStop = (
  fNumber: number,
  illuminanceLux: number,
  iso: number,
  meterC = INCIDENT_METER_C_FLAT,
): number => (meterC * fNumber ** 2) / (illuminanceLux * iso);

/** Reflectance of the matte surface on which incident and spot meter agree, pi K / C. */
export const meterReflectance = (meterK = REFLECTED_METER_K, meterC = INCIDENT_METER_C_FLAT): number =>
  (Math.PI * meterK) / meterC;

/**
 * The f-number that exposure feels at magnification m: N (1 + m/P), P = exit over entrance pupil diameter.
 * Source: J. Conrad, "Depth of Field in Depth" (2006).
 */
export const effectiveFNumber = (fNumber: number, m: number, pupilRatio = 1): number => fNumber * (1 + m / pupilRatio);

/** Stops lost to close focus, 2 log2(1 + m/P). */
export const closeUpLossStops = (m: number, pupilRatio = 1): number => 2 * Math.log2(1 + m / pupilRatio);

/** Luminance at which the sensor clips, cd/m2, for the effective f-number. ISO 12232 (saturation-based speed). */
export const saturationLuminanceNits = (effectiveFNumberValue: number, iso: number, shutterS: number): number =>
  (SATURATION_CONSTANT * effectiveFNumberValue ** 2) / (iso * shutterS);

/** Everything that a camera's settings say about exposure. */
export interface CameraExposure {
  readonly magnification: number;
  readonly effectiveFNumber: number;
  readonly closeUpLossStops: number;
  /** EV of the settings with the effective stop, at ISO 100: what a meter must read for a right exposure. */
  readonly ev100: number;
  /** Luminance that a spot meter places at middle. */
  readonly middleLuminanceNits: number;
  readonly saturationLuminanceNits: number;
}

/** Exposure of a camera at its focus distance, close-up loss included. */
export function cameraExposure(camera: Camera): CameraExposure {
  const m = magnification(camera.focalLengthMm / 1000, camera.focusDistanceM);
  const stop = effectiveFNumber(camera.apertureFNumber, m, camera.pupilRatio);
  const ev100 = ev100FromSettings(stop, camera.shutterS, camera.iso);
  return {
    magnification: m,
    effectiveFNumber: stop,
    closeUpLossStops: closeUpLossStops(m, camera.pupilRatio),
    ev100,
    middleLuminanceNits: luminanceNitsFromEv100(ev100),
    saturationLuminanceNits: saturationLuminanceNits(stop, camera.iso, camera.shutterS),
  };
}
