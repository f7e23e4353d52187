import { blurCircleM } from '../../camera/depthOfField.ts';
import type { Camera } from '../../camera/records.ts';
import { boxInFrame } from '../places/heroCells.ts';
import { boundsIn, viewFromWorld } from '../places/heroPlace.ts';
import type { FrameStudy } from '../study.ts';
import { nameOfRecord } from '../words.ts';

/** Depth of one piece along the lens axis and its blur on the sensor. */
export interface RecordSharpness {
  readonly id: string;
  readonly name: string;
  readonly nearM: number;
  readonly farM: number;
  /** Blur of its nearest and its farthest part, in circles of confusion. */
  readonly nearBlurCircles: number;
  readonly farBlurCircles: number;
  readonly focus: 'sharp' | 'partly sharp' | 'soft';
}

/** Circle of confusion of a camera, metres. */
export const circleM = (camera: Camera, divisor: number): number =>
  Math.hypot(camera.sensorWidthMm, camera.sensorHeightMm) / 1000 / divisor;

/** Blur on the sensor of what lies at a depth, in circles of confusion. */
export function blurCircles(camera: Camera, depthM: number, cocM: number): number {
  const { focalLengthMm, apertureFNumber, focusDistanceM, pupilRatio } = camera;
  return blurCircleM(focalLengthMm / 1000, apertureFNumber, focusDistanceM, depthM, pupilRatio) / cocM;
}

/** Null for a piece that is not in the frame, or not before the lens. */
export function sharpnessOf({ input }: FrameStudy, id: string, cocM: number): RecordSharpness | null {
  const { view, scene, set } = input;
  const worldBounds = set.boundsByRecord.get(id);
  if (!worldBounds || !boxInFrame(input, worldBounds)) return null;
  const bounds = boundsIn(input, id, viewFromWorld(view.right, view.up, view.forward, view.originM));
  if (!bounds) return null;
  // What reaches behind the lens begins at it.
  const nearM = Math.max(bounds.minM[2], scene.camera.focalLengthMm / 1000);
  const farM = bounds.maxM[2];
  if (farM <= nearM) return null;
  const nearBlurCircles = blurCircles(scene.camera, nearM, cocM);
  const farBlurCircles = blurCircles(scene.camera, farM, cocM);
  const { focusDistanceM } = scene.camera;
  const crossesFocus = nearM <= focusDistanceM && farM >= focusDistanceM;
  const least = crossesFocus ? 0 : Math.min(nearBlurCircles, farBlurCircles);
  const focus = Math.max(nearBlurCircles, farBlurCircles) <= 1 ? 'sharp' : least <= 1 ? 'partly sharp' : 'soft';
  return { id, name: nameOfRecord(scene, id), nearM, farM, nearBlurCircles, farBlurCircles, focus };
}
