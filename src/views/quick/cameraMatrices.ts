import { Matrix4 } from 'three';
import type { CameraView } from '../../camera/view.ts';

/** Clipping planes of the quick picture along the lens axis. */
export const NEAR_M = 0.02;
export const FAR_M = 60;

/**
 * View and projection of the camera that the tracer's rays belong to: a point falls on the same place of the frame as
 * by `projectPoint`. Clip space is that of WebGL: x right, y up, -1..1.
 */
export function cameraMatrices(view: CameraView): { readonly viewFromWorld: Matrix4; readonly clipFromView: Matrix4 } {
  const { right: r, up: u, forward: f, originM: o } = view;
  const worldFromView = new Matrix4(
    ...[r[0], u[0], -f[0], o[0]],
    ...[r[1], u[1], -f[1], o[1]],
    ...[r[2], u[2], -f[2], o[2]],
    ...[0, 0, 0, 1],
  );
  const depth = FAR_M - NEAR_M;
  const clipFromView = new Matrix4(
    ...[1 / view.tanHalfWidth, 0, 0, 0],
    ...[0, 1 / view.tanHalfHeight, 0, 0],
    ...[0, 0, -(FAR_M + NEAR_M) / depth, (-2 * FAR_M * NEAR_M) / depth],
    ...[0, 0, -1, 0],
  );
  return { viewFromWorld: worldFromView.invert(), clipFromView };
}

/**
 * World to its mirror image in a plane (unit normal, a point of it). Seen through this, a camera shows what the plane
 * mirrors, at the very places of the frame where the mirror shows it.
 */
export function mirrorMatrix(
  normal: readonly [number, number, number],
  pointM: readonly [number, number, number],
): Matrix4 {
  const [x, y, z] = normal;
  const d = x * pointM[0] + y * pointM[1] + z * pointM[2];
  return new Matrix4(
    ...[1 - 2 * x * x, -2 * x * y, -2 * x * z, 2 * x * d],
    ...[-2 * x * y, 1 - 2 * y * y, -2 * y * z, 2 * y * d],
    ...[-2 * x * z, -2 * y * z, 1 - 2 * z * z, 2 * z * d],
    ...[0, 0, 0, 1],
  );
}
