import { degFromRad, radFromDeg } from '../../core/units.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { placementOf } from '../drawing/placement.ts';

/** How one says on set where a light stands: along the floor from the subject, over the table, round from the camera. */
export interface FromSubject {
  readonly levelDistanceM: number;
  readonly heightM: number;
  /** -180..180 from the camera's own direction, positive on the camera's right. */
  readonly bearingDeg: number;
}

/** Null for what stands at the subject, where there is no direction to speak of; the camera's own bearing is 0. */
export function fromSubject(scene: FrameScene, recordId: string): FromSubject | null {
  const placement = placementOf(scene, recordId);
  if (!placement || placement.horizontalDistanceM < 0.005) return null;
  const { horizontalDistanceM, heightM, bearingDeg } = placement;
  return { levelDistanceM: horizontalDistanceM, heightM, bearingDeg: bearingDeg ?? 0 };
}

/** The place that such words mean; the inverse of {@link fromSubject}. */
export function placeFromSubject(scene: FrameScene, recordId: string, wanted: FromSubject): Vec3 {
  const { positionM } = scene.camera;
  const [x, , z] = scene.subject.meterPointM;
  const cameraRad = Math.atan2(positionM[0] - x, positionM[2] - z);
  // The camera has no bearing from itself: it stays in its own direction.
  const turnRad = recordId === 'camera' ? 0 : radFromDeg(wanted.bearingDeg);
  const rad = cameraRad + turnRad;
  return [
    round(x + Math.sin(rad) * wanted.levelDistanceM),
    round(wanted.heightM),
    round(z + Math.cos(rad) * wanted.levelDistanceM),
  ];
}

/** Angle above the level of the meter point at which a thing is seen from there, degrees. */
export function elevationDeg(scene: FrameScene, recordId: string): number | null {
  const placement = placementOf(scene, recordId);
  if (!placement) return null;
  return degFromRad(Math.atan2(placement.heightM - scene.subject.meterPointM[1], placement.horizontalDistanceM));
}

const round = (value: number): number => Number(value.toFixed(4)) + 0;
