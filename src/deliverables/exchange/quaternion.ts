import { applyToDirection, fromAxes, type RigidTransform } from '../../core/rigid.ts';
import { negate, type Vec3 } from '../../core/vec3.ts';

/** Unit quaternion (x, y, z, w) of a rotation. Source: K. Shoemake, "Quaternions" (1994), by the largest component. */
export function quaternionFromRotation(m: RigidTransform['rotation']): [number, number, number, number] {
  const [m00, m01, m02, m10, m11, m12, m20, m21, m22] = m;
  const trace = m00 + m11 + m22;
  let q: [number, number, number, number];
  if (trace > 0) {
    const s = 2 * Math.sqrt(trace + 1);
    q = [(m21 - m12) / s, (m02 - m20) / s, (m10 - m01) / s, s / 4];
  } else if (m00 > m11 && m00 > m22) {
    const s = 2 * Math.sqrt(1 + m00 - m11 - m22);
    q = [s / 4, (m01 + m10) / s, (m02 + m20) / s, (m21 - m12) / s];
  } else if (m11 > m22) {
    const s = 2 * Math.sqrt(1 + m11 - m00 - m22);
    q = [(m01 + m10) / s, s / 4, (m12 + m21) / s, (m02 - m20) / s];
  } else {
    const s = 2 * Math.sqrt(1 + m22 - m00 - m11);
    q = [(m02 + m20) / s, (m12 + m21) / s, s / 4, (m10 - m01) / s];
  }
  const l = Math.hypot(...q);
  return [q[0] / l, q[1] / l, q[2] / l, q[3] / l];
}

/** glTF's lights and cameras look along -z; the frames of fixtures look along +z. Half a turn about y between them. */
export const lookingAlongMinusZ = (frame: RigidTransform): RigidTransform => {
  const axis = (local: Vec3): Vec3 => applyToDirection(frame, local);
  return fromAxes(negate(axis([1, 0, 0])), axis([0, 1, 0]), negate(axis([0, 0, 1])), frame.translationM);
};
