import type { Diagnostic } from '../core/diagnostic.ts';
import { mmFromM, radFromDeg } from '../core/units.ts';
import { distance } from '../core/vec3.ts';
import { airyDiameterM, circleOfConfusionM } from './depthOfField.ts';
import { effectiveFNumber } from './exposure.ts';
import { fieldOfViewRad, imageDistanceM, magnification } from './lens.ts';
import type { Camera } from './records.ts';

/** Macro beyond this needs bellows or a reversed lens. */
const MAGNIFICATION_LIMIT = 5;
const WIDEST_USUAL_STOP = 1;
const WIDEST_USUAL_VIEW_RAD = radFromDeg(110);

/** Settings of a camera that can't be or that people seldom mean. Empty when nothing is doubtful. */
export function cameraDiagnostics(camera: Camera): Diagnostic[] {
  return [
    ...focusDiagnostics(camera),
    ...apertureDiagnostics(camera),
    ...aimDiagnostics(camera),
    ...frameDiagnostics(camera),
  ];
}

const error = (code: string, field: keyof Camera, camera: Camera, message: string): Diagnostic => ({
  severity: 'error',
  code,
  field: `camera.${field}`,
  value: camera[field],
  message,
});
const warning = (code: string, field: keyof Camera, camera: Camera, message: string): Diagnostic => ({
  ...error(code, field, camera, message),
  severity: 'warning',
});

function focusDiagnostics(camera: Camera): Diagnostic[] {
  const focalLengthM = camera.focalLengthMm / 1000;
  if (camera.focusDistanceM <= focalLengthM) {
    return [
      error(
        'focus-inside-focal-length',
        'focusDistanceM',
        camera,
        `The focus distance of ${mmFromM(camera.focusDistanceM).toFixed(0)} mm is not beyond the focal length of ` +
          `${camera.focalLengthMm} mm, so there is no image: focus further away or choose a shorter lens.`,
      ),
    ];
  }
  const m = magnification(focalLengthM, camera.focusDistanceM);
  if (m <= MAGNIFICATION_LIMIT) return [];
  return [
    warning(
      'magnification-high',
      'focusDistanceM',
      camera,
      `The focus distance gives ${m.toFixed(1)} times life size: focus further away unless that is meant.`,
    ),
  ];
}

function apertureDiagnostics(camera: Camera): Diagnostic[] {
  const found: Diagnostic[] = [];
  const pupilM = camera.focalLengthMm / 1000 / camera.apertureFNumber;
  if (camera.apertureFNumber < WIDEST_USUAL_STOP) {
    found.push(
      warning(
        'stop-very-wide',
        'apertureFNumber',
        camera,
        `Few lenses open to f/${camera.apertureFNumber}: choose f/${WIDEST_USUAL_STOP} or a smaller stop.`,
      ),
    );
  }
  if (pupilM > camera.frontElementDiameterM) {
    found.push(
      warning(
        'pupil-larger-than-front-element',
        'frontElementDiameterM',
        camera,
        `At f/${camera.apertureFNumber} the ${camera.focalLengthMm} mm lens needs a front element of at least ` +
          `${Math.ceil(mmFromM(pupilM))} mm: make it larger or stop down.`,
      ),
    );
  }
  const m = magnification(camera.focalLengthMm / 1000, camera.focusDistanceM);
  const airyM = airyDiameterM(effectiveFNumber(camera.apertureFNumber, m, camera.pupilRatio));
  if (airyM > circleOfConfusionM(camera)) {
    found.push(
      warning(
        'diffraction-soft',
        'apertureFNumber',
        camera,
        `At f/${camera.apertureFNumber} diffraction draws every point ${(airyM * 1e6).toFixed(0)} um wide, more than ` +
          `the ${(circleOfConfusionM(camera) * 1e6).toFixed(0)} um that pass as sharp: open up for a crisper picture.`,
      ),
    );
  }
  return found;
}

function aimDiagnostics(camera: Camera): Diagnostic[] {
  if (distance(camera.positionM, camera.aimM) > 1e-6) return [];
  return [
    error(
      'aim-at-camera',
      'aimM',
      camera,
      'The camera aims at its own lens: move the aim or the camera so that it has a direction to look in.',
    ),
  ];
}

function frameDiagnostics(camera: Camera): Diagnostic[] {
  const found: Diagnostic[] = [];
  const focalLengthM = camera.focalLengthMm / 1000;
  const m = magnification(focalLengthM, camera.focusDistanceM);
  const view = fieldOfViewRad(Math.hypot(camera.sensorWidthMm, camera.sensorHeightMm) / 1000, focalLengthM, m);
  if (view > WIDEST_USUAL_VIEW_RAD) {
    found.push(
      warning(
        'view-very-wide',
        'focalLengthMm',
        camera,
        `A ${camera.focalLengthMm} mm lens sees ${Math.round((view * 180) / Math.PI)} degrees across the diagonal of ` +
          'this sensor; few lenses cover that: choose a longer lens or a smaller sensor.',
      ),
    );
  }
  const box = camera.matteBox;
  if (box !== undefined) {
    const imageM = imageDistanceM(focalLengthM, camera.focusDistanceM);
    const cuts = (innerM: number, sensorMm: number, reachM: number): boolean =>
      innerM / 2 / (box.depthM + reachM) < sensorMm / 2000 / imageM;
    if (
      cuts(box.innerWidthM, camera.sensorWidthMm, box.sideFlagsM) ||
      cuts(box.innerHeightM, camera.sensorHeightMm, box.topFlagM)
    ) {
      found.push(
        warning(
          'matte-box-in-frame',
          'matteBox',
          camera,
          'The matte box or its flags cut into the frame: draw the flags in, or use a wider or shallower box.',
        ),
      );
    }
  }
  return found;
}
