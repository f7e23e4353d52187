import { add, addScaled, scale, type Vec3 } from '../../../core/vec3.ts';
import { patchIlluminance } from './bouncePatches.ts';
import { directIlluminance } from './directIlluminance.ts';
import type { LightField } from './lightField.ts';

/** Round the thing and from above. */
const SIDES: readonly Vec3[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 0, 1],
  [0, 0, -1],
  [0, 1, 0],
];
const CELLS = 2;

/**
 * Luminance, working RGB, cd/m2, of a white cloud in a glass: the mean of what falls on its sides and top, sent back evenly.
 * An estimate that leaves out how the light comes through the glass.
 */
export function cloudLuminance(field: LightField, recordId: string, centreM: Vec3, radiusM: number): Vec3 {
  const sum = SIDES.reduce<Vec3>(
    (total, normal) => {
      const at = addScaled(centreM, normal, radiusM);
      const direct = directIlluminance(field.lights, at, normal, recordId, CELLS);
      return add(total, add(direct, patchIlluminance(field.patches, at, normal)));
    },
    [0, 0, 0],
  );
  return scale(sum, 1 / (SIDES.length * Math.PI));
}
