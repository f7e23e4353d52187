import { cross, dot, normalize, scale, sub, type Vec3 } from './vec3.ts';

/**
 * Rotation and translation, no scale: `world = rotation * local + translationM`.
 * `rotation` is row-major 3 x 3, so its columns are the local axes in world space.
 */
export interface RigidTransform {
  readonly rotation: readonly [number, number, number, number, number, number, number, number, number];
  readonly translationM: Vec3;
}

export const IDENTITY: RigidTransform = { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translationM: [0, 0, 0] };

export const fromAxes = (x: Vec3, y: Vec3, z: Vec3, translationM: Vec3): RigidTransform => ({
  rotation: [x[0], y[0], z[0], x[1], y[1], z[1], x[2], y[2], z[2]],
  translationM,
});

export const translation = (translationM: Vec3): RigidTransform => ({ ...IDENTITY, translationM });

/** Turn about the vertical by `headingRad` (counter-clockwise seen from above: +x turns toward -z), then move. */
export const fromHeading = (positionM: Vec3, headingRad: number): RigidTransform => {
  const c = Math.cos(headingRad);
  const s = Math.sin(headingRad);
  return { rotation: [c, 0, s, 0, 1, 0, -s, 0, c], translationM: positionM };
};

/**
 * The frame of something that points: local +z looks from `positionM` to `aimM`, local +y is up, local +x is
 * up x forward (the thing's own left hand is +x when it faces you). `rollRad` turns it about +z, right-handed.
 * Looking straight up or down, world -z stands in for up.
 */
export const fromAim = (positionM: Vec3, aimM: Vec3, rollRad = 0): RigidTransform => {
  const z = normalize(sub(aimM, positionM));
  const forward: Vec3 = dot(z, z) > 0 ? z : [0, 0, 1];
  const up: Vec3 = Math.abs(forward[1]) > 0.99999 ? [0, 0, -1] : [0, 1, 0];
  const x0 = normalize(cross(up, forward));
  const y0 = cross(forward, x0);
  const c = Math.cos(rollRad);
  const s = Math.sin(rollRad);
  const x: Vec3 = [x0[0] * c + y0[0] * s, x0[1] * c + y0[1] * s, x0[2] * c + y0[2] * s];
  const y: Vec3 = [y0[0] * c - x0[0] * s, y0[1] * c - x0[1] * s, y0[2] * c - x0[2] * s];
  return fromAxes(x, y, forward, positionM);
};

export const applyToPoint = (t: RigidTransform, p: Vec3): Vec3 => {
  const d = applyToDirection(t, p);
  return [d[0] + t.translationM[0], d[1] + t.translationM[1], d[2] + t.translationM[2]];
};

export const applyToDirection = (t: RigidTransform, d: Vec3): Vec3 => {
  const r = t.rotation;
  return [
    r[0] * d[0] + r[1] * d[1] + r[2] * d[2],
    r[3] * d[0] + r[4] * d[1] + r[5] * d[2],
    r[6] * d[0] + r[7] * d[1] + r[8] * d[2],
  ];
};

export const inverseDirection = (t: RigidTransform, d: Vec3): Vec3 => {
  const r = t.rotation;
  return [
    r[0] * d[0] + r[3] * d[1] + r[6] * d[2],
    r[1] * d[0] + r[4] * d[1] + r[7] * d[2],
    r[2] * d[0] + r[5] * d[1] + r[8] * d[2],
  ];
};

export const inversePoint = (t: RigidTransform, p: Vec3): Vec3 => inverseDirection(t, sub(p, t.translationM));

/** First `inner`, then `outer`. */
export const compose = (outer: RigidTransform, inner: RigidTransform): RigidTransform => {
  const col = (i: 0 | 1 | 2): Vec3 =>
    applyToDirection(outer, [inner.rotation[i], inner.rotation[3 + i] as number, inner.rotation[6 + i] as number]);
  return fromAxes(col(0), col(1), col(2), applyToPoint(outer, inner.translationM));
};

export const invert = (t: RigidTransform): RigidTransform => {
  const r = t.rotation;
  return {
    rotation: [r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]],
    translationM: scale(inverseDirection(t, t.translationM), -1),
  };
};
