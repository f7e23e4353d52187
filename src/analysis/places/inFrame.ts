import { projectPoint } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Where } from '../contracts.ts';

type FramePlace = Pick<Where, 'frame' | 'outlineUv'>;

/** Box in the frame round points that lie before the lens, and the points themselves as an outline. Empty without any. */
export function outlineInFrame(view: CameraView, pointsM: readonly Vec3[]): FramePlace {
  const uvs = pointsM.map((pointM) => projectPoint(view, pointM)).filter((uv) => uv !== null);
  if (uvs.length === 0) return {};
  return { ...boxOfUvs(uvs.map(({ u, v }) => [u, v])), outlineUv: uvs.map(({ u, v }) => [u, v] as const) };
}

/** Box in the frame round places in it. */
export function boxOfUvs(uvs: readonly (readonly [number, number])[]): FramePlace {
  if (uvs.length === 0) return {};
  const us = uvs.map(([u]) => u);
  const vs = uvs.map(([, v]) => v);
  const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
  return { frame: { u: (u0 + u1) / 2, v: (v0 + v1) / 2, widthU: u1 - u0, heightV: v1 - v0 } };
}

/** One point as a place in the frame without size; empty behind the lens. */
export function pointInFrame(view: CameraView, pointM: Vec3): FramePlace {
  const at = projectPoint(view, pointM);
  return at ? { frame: { u: at.u, v: at.v, widthU: 0, heightV: 0 } } : {};
}

/** Is a point before the lens and inside the frame? */
export function isPointInFrame(view: CameraView, pointM: Vec3): boolean {
  const at = projectPoint(view, pointM);
  return at !== null && at.u >= 0 && at.u <= 1 && at.v >= 0 && at.v <= 1;
}
