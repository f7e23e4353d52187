import { fromAxes, type RigidTransform } from '../../core/rigid.ts';
import type { Shape } from '../../core/shape.ts';
import { cross, dot, normalize, orthonormalBasis, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { joinPieces, type ProfilePiece, shapeFromPiece } from '../profile/index.ts';

/** One face of a small body: what it is called, its shape, and where it is put. */
export interface SolidPart {
  readonly role: string;
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
}

/**
 * Frame whose local +y looks along `up` (unit) from `originM`; its +x leans as far as it can toward `toward` (any
 * direction when left out or along `up`).
 */
export function frameAlong(originM: Vec3, up: Vec3, toward?: Vec3): RigidTransform {
  const across = toward ? sub(toward, scale(up, dot(toward, up))) : ([0, 0, 0] as const);
  const x = Math.hypot(...across) > 1e-9 ? normalize(across) : orthonormalBasis(up).tangent;
  return fromAxes(x, up, cross(x, up), originM);
}

/** The exact surfaces of one profile turned about the y axis of a frame. */
export const turnedParts = (
  role: string,
  pieces: readonly ProfilePiece[],
  worldFromLocal: RigidTransform,
): SolidPart[] => joinPieces(pieces).map((piece) => ({ role, shape: shapeFromPiece(piece), worldFromLocal }));

/** A direction in the level plane: azimuth 0 along +x, 90 degrees along +z. */
export const levelDirection = (azimuthRad: number): Vec3 => [Math.cos(azimuthRad), 0, Math.sin(azimuthRad)];
