import { degFromRad } from '../../core/units.ts';
import { distance, type Vec3 } from '../../core/vec3.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { comfortStore, formatLength } from '../comfort/index.ts';

/** Where a thing stands, in the figures that one paces out and measures on set. */
export interface Placement {
  readonly recordId: string;
  readonly positionM: Vec3;
  /** Where the meter is held. */
  readonly subjectM: Vec3;
  /** Straight line from the meter point. */
  readonly distanceM: number;
  /** Along the floor from the meter point. */
  readonly horizontalDistanceM: number;
  /** Over the table top. */
  readonly heightM: number;
  /**
   * Round the subject from the camera's own direction, -180..180: positive on the camera's right, 180 straight behind
   * the subject. Null for the camera itself and for what stands at the subject.
   */
  readonly bearingDeg: number | null;
  /** The camera's direction from the subject on the plan, radians from +z toward +x. */
  readonly cameraBearingRad: number;
}

/** Closer than this to the subject there is no direction to speak of. */
const NO_BEARING_WITHIN_M = 0.005;

/** Placement of a piece, fixture or grip item, or of the camera ('camera'). Null when the frame has no such record. */
export function placementOf(scene: FrameScene, recordId: string): Placement | null {
  const subjectM = scene.subject.meterPointM;
  const isCamera = recordId === 'camera';
  const record = isCamera
    ? scene.camera
    : [...scene.fixtures, ...scene.grip, ...scene.pieces].find(({ id }) => id === recordId);
  if (!record) return null;
  const { positionM } = record;
  const dx = positionM[0] - subjectM[0];
  const dz = positionM[2] - subjectM[2];
  const horizontalDistanceM = Math.hypot(dx, dz);
  const cameraBearingRad = Math.atan2(scene.camera.positionM[0] - subjectM[0], scene.camera.positionM[2] - subjectM[2]);
  const turn = degFromRad(Math.atan2(dx, dz) - cameraBearingRad);
  return {
    recordId,
    positionM,
    subjectM,
    distanceM: distance(positionM, subjectM),
    horizontalDistanceM,
    heightM: positionM[1],
    bearingDeg: isCamera || horizontalDistanceM < NO_BEARING_WITHIN_M ? null : wrapDegrees(turn),
    cameraBearingRad,
  };
}

/** Into -180..180, 180 kept positive. */
function wrapDegrees(deg: number): number {
  const turn = ((deg % 360) + 360) % 360;
  return turn > 180 ? turn - 360 : turn;
}

export const formatM = (valueM: number): string => formatLength(valueM, comfortStore.getState().lengths);

/** 'right 35°' as seen from behind the camera. */
export function formatBearing(bearingDeg: number): string {
  const deg = Math.round(Math.abs(bearingDeg));
  if (deg === 0) return 'at the camera';
  if (deg === 180) return 'straight behind';
  return `${bearingDeg > 0 ? 'right' : 'left'} ${deg}°`;
}
