import { cross, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { Fixture, GripItem } from '../../fixtures/records.ts';

/** A way to move a light or sheet, as people on set say it. */
export interface Move {
  /** With NAME where the name of the thing goes. */
  readonly verb: string;
  readonly direction: Vec3;
}

/** Up, down, away from what it lights, and to both sides, as seen from above. */
export function movesOf({ positionM, aimM }: Fixture | GripItem, cameraRight: Vec3): Move[] {
  const back = sub(positionM, aimM);
  const level: Vec3 = [back[0], 0, back[2]];
  const away: Vec3 = length(level) > 1e-6 ? normalize(level) : [0, 0, -1];
  const side = cross([0, 1, 0], away);
  const right: Vec3 = dot(side, cameraRight) >= 0 ? side : scale(side, -1);
  return [
    { verb: 'Raise NAME', direction: [0, 1, 0] },
    { verb: 'Lower NAME', direction: [0, -1, 0] },
    { verb: 'Move NAME back', direction: away },
    { verb: 'Move NAME to camera right', direction: right },
    { verb: 'Move NAME to camera left', direction: scale(right, -1) },
  ];
}
