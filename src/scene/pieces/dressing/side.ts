import { compose, type RigidTransform, translation } from '../../../core/rigid.ts';
import type { Shape } from '../../../core/shape.ts';
import type { Vec3 } from '../../../core/vec3.ts';
import type { Finish } from '../../../materials/finish.ts';
import type { OpticalSurface } from '../../../materials/surface.ts';
import { buildRoundedBox } from '../../roundedBox.ts';

/** One face of a piece before it has a finish. */
export interface Side {
  readonly role: string;
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
}

/** Sides with one finish for all. */
export const dressSides = (recordId: string, sides: readonly Side[], finish: Finish): OpticalSurface[] =>
  sides.map((side) => ({ recordId, ...side, finish }));

/** A closed box between two corners, faces outward. */
export function boxSides(name: string, minM: Vec3, maxM: Vec3, placement: RigidTransform): Side[] {
  const half: Vec3 = [(maxM[0] - minM[0]) / 2, (maxM[1] - minM[1]) / 2, (maxM[2] - minM[2]) / 2];
  const centre: Vec3 = [(maxM[0] + minM[0]) / 2, (maxM[1] + minM[1]) / 2, (maxM[2] + minM[2]) / 2];
  return buildRoundedBox(half, 0, compose(placement, translation(centre))).map((side) => ({
    ...side,
    role: name === '' ? side.role : `${name} ${side.role}`,
  }));
}

export const quadSide = (
  role: string,
  originM: Vec3,
  edgeUM: Vec3,
  edgeVM: Vec3,
  worldFromLocal: RigidTransform,
): Side => ({ role, shape: { type: 'quad', originM, edgeUM, edgeVM }, worldFromLocal });
