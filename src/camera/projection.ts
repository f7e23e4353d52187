import { invariant } from '../core/result.ts';
import { radFromDeg } from '../core/units.ts';
import { add, addScaled, cross, dot, normalize, scale, sub, type Vec3 } from '../core/vec3.ts';
import { imageDistanceM } from './lens.ts';
import type { Camera } from './records.ts';
import type { CameraView } from './view.ts';

/** Width and height of the part of the sensor that is used, metres. */
export interface FrameSize {
  readonly widthM: number;
  readonly heightM: number;
}

/** The largest part of the sensor with the wanted aspect (width over height), centred; all of it when left out. */
export function frameSize(camera: Camera, aspect?: number): FrameSize {
  const widthM = camera.sensorWidthMm / 1000;
  const heightM = camera.sensorHeightMm / 1000;
  if (aspect === undefined) return { widthM, heightM };
  invariant(aspect > 0, () => `aspect ${aspect}`);
  return aspect > widthM / heightM ? { widthM, heightM: widthM / aspect } : { widthM: heightM * aspect, heightM };
}

/**
 * What the tracer needs of a camera: thin lens, focused, with the aperture as an evenly lit disc of diameter f/N.
 *
 * Up is world up, so the camera stands level until rolled; positive roll leans it to its own right. Straight down,
 * the top of the frame is toward the backdrop (world -z); straight up it is toward +z.
 *
 * @param aspect width over height of the output; the frame is cropped inside the sensor when it differs.
 */
export function cameraView(camera: Camera, aspect?: number): CameraView {
  const aim = sub(camera.aimM, camera.positionM);
  const forward: Vec3 = dot(aim, aim) > 0 ? normalize(aim) : [0, 0, -1];
  const upHint: Vec3 = Math.abs(forward[1]) > 0.99999 ? [0, 0, Math.sign(forward[1])] : [0, 1, 0];
  const levelRight = normalize(cross(forward, upHint));
  const levelUp = cross(levelRight, forward);
  const rollRad = radFromDeg(camera.rollDeg);
  const c = Math.cos(rollRad);
  const s = Math.sin(rollRad);

  const focalLengthM = camera.focalLengthMm / 1000;
  const imageM = imageDistanceM(focalLengthM, camera.focusDistanceM);
  const { widthM, heightM } = frameSize(camera, aspect);
  return {
    originM: camera.positionM,
    right: addScaled(scale(levelRight, c), levelUp, -s),
    up: addScaled(scale(levelUp, c), levelRight, s),
    forward,
    tanHalfWidth: widthM / 2 / imageM,
    tanHalfHeight: heightM / 2 / imageM,
    apertureRadiusM: focalLengthM / (2 * camera.apertureFNumber),
    focusDistanceM: camera.focusDistanceM,
  };
}

/** Where in the frame a point falls: u right and v down, 0..1 inside; depth along the axis. Null behind the lens. */
export function projectPoint(view: CameraView, pointM: Vec3): { u: number; v: number; depthM: number } | null {
  const d = sub(pointM, view.originM);
  const depthM = dot(d, view.forward);
  if (!(depthM > 1e-9)) return null;
  return {
    u: 0.5 + dot(d, view.right) / (2 * depthM * view.tanHalfWidth),
    v: 0.5 - dot(d, view.up) / (2 * depthM * view.tanHalfHeight),
    depthM,
  };
}

/** The ray through the lens centre for a place in the frame; unit direction. Inverse of {@link projectPoint}. */
export function rayThrough(view: CameraView, u: number, v: number): { originM: Vec3; direction: Vec3 } {
  const sideways = scale(view.right, (2 * u - 1) * view.tanHalfWidth);
  const upward = scale(view.up, (1 - 2 * v) * view.tanHalfHeight);
  return { originM: view.originM, direction: normalize(add(view.forward, add(sideways, upward))) };
}
