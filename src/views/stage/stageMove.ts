import { addScaled, dot, sub, type Vec3 } from '../../core/vec3.ts';

/** A ray from the eye of the stage through the pointer. */
export interface PointerRay {
  readonly originM: Vec3;
  readonly direction: Vec3;
}

/** Rays flatter than this to the plane would throw things to the horizon. */
const FLATTEST = 0.02;
const FARTHEST_M = 20;

/** Where a ray meets the level plane at a height; null when it runs along it, away from it, or meets it too far off. */
export function meetLevel({ originM, direction }: PointerRay, heightM: number): Vec3 | null {
  if (Math.abs(direction[1]) < FLATTEST) return null;
  const t = (heightM - originM[1]) / direction[1];
  return t > 0 && t < FARTHEST_M ? addScaled(originM, direction, t) : null;
}

/**
 * Height on the upright line through a point at which the ray passes nearest; null when the ray itself is upright.
 * Nearest points of two lines: e.g. C. Ericson, Real-Time Collision Detection, 2005, 5.1.8 (from memory).
 */
export function heightBeside({ originM, direction }: PointerRay, pointM: Vec3): number | null {
  const w = sub(originM, pointM);
  const b = direction[1];
  const level = 1 - b * b;
  if (level < FLATTEST * FLATTEST) return null;
  const s = (w[1] - b * dot(w, direction)) / level;
  return pointM[1] + s;
}
