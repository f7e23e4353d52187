import type { RigidTransform } from '../../core/rigid.ts';
import type { Shape } from '../../core/shape.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import { type Built, builtOf } from '../built.ts';
import { SOLID_PRIORITY } from '../priorities.ts';

interface Side {
  readonly role: string;
  readonly shape: Shape;
  readonly worldFromLocal: RigidTransform;
}

/** What a closed body is made of, as its record says. */
export interface SolidFill {
  readonly finish: Finish;
  readonly clearIndex: number;
  readonly clearAbsorptionPerM?: Vec3;
}

/**
 * A closed body of one finish. With a clear finish its inside is a clear medium, tinted by what it absorbs; any other finish is a matter of the
 * surface alone.
 */
export function buildSolid(recordId: string, sides: readonly Side[], record: SolidFill): Built {
  const clear = record.finish.type === 'clear';
  const id = `${recordId}:body`;
  return builtOf(
    sides.map((side) => ({ recordId, ...side, finish: record.finish, ...(clear ? { backVolume: id } : {}) })),
    clear
      ? [
          {
            id,
            recordId,
            medium: { index: record.clearIndex, absorptionPerM: record.clearAbsorptionPerM ?? [0, 0, 0] },
            priority: SOLID_PRIORITY,
          },
        ]
      : [],
  );
}
