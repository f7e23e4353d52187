import { cameraSharpness } from '../../camera/depthOfField.ts';
import { closeUpLossStops, effectiveFNumber } from '../../camera/exposure.ts';
import { magnification } from '../../camera/lens.ts';
import type { Camera } from '../../camera/records.ts';
import { fNumberText } from './exposureScales.ts';

/** Close-up loss that is worth a word: what a meter repeats to. */
const WORTH_SAYING_STOPS = 0.1;

/** What the incident meter says, from the figures of the exposure check; '' until the checks have spoken. */
export function describeMeteredStop(figures: Readonly<Record<string, unknown>>): string {
  const { exposure } = figures;
  if (!isObject(exposure) || !isObject(exposure.incidentDome)) return '';
  const { fNumber } = exposure.incidentDome;
  if (typeof fNumber !== 'number' || !(fNumber > 0)) return 'No light at the meter';
  return `Meter says ${fNumberText(fNumber)}`;
}

/** What the marked stop comes to this close; '' where the difference is not worth a word. */
export function describeCloseUpLoss(camera: Camera): string {
  const m = magnification(camera.focalLengthMm / 1000, camera.focusDistanceM);
  if (closeUpLossStops(m, camera.pupilRatio) < WORTH_SAYING_STOPS) return '';
  const { apertureFNumber, pupilRatio } = camera;
  return `${fNumberText(apertureFNumber)} works as ${fNumberText(effectiveFNumber(apertureFNumber, m, pupilRatio))} this close`;
}

/** The depth that is sharp along the axis, from the lens; '' where there is no image. */
export function describeSharpDepth(camera: Camera): string {
  const { depthOfField, diffractionLimited } = cameraSharpness(camera);
  if (!depthOfField) return '';
  const { nearM, farM } = depthOfField;
  const softened = diffractionLimited ? ', softened by diffraction' : '';
  return `sharp ${nearM.toFixed(2)} to ${Number.isFinite(farM) ? farM.toFixed(2) : '\u221e'} m${softened}`;
}

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;
