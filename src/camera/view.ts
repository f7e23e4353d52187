import type { Vec3 } from '../core/vec3.ts';

/** Camera rays as the tracer makes them. */
export interface CameraView {
  readonly originM: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly forward: Vec3;
  /** Half extents of the frame on the plane at 1 m in front of the lens centre. */
  readonly tanHalfWidth: number;
  readonly tanHalfHeight: number;
  /** Entrance pupil radius; 0 makes a pinhole. */
  readonly apertureRadiusM: number;
  readonly focusDistanceM: number;
}
