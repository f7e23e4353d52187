import { sub, type Vec3 } from '../../core/vec3.ts';

/** What a tape reads between two points. */
export interface Measured {
  readonly distanceM: number;
  /** Along the floor. */
  readonly levelM: number;
  /** Height of the second over the first. */
  readonly riseM: number;
}

export function measureBetween(fromM: Vec3, toM: Vec3): Measured {
  const [x, y, z] = sub(toM, fromM);
  return { distanceM: Math.hypot(x, y, z), levelM: Math.hypot(x, z), riseM: y };
}

/** '42.0 cm' under a metre, '1.204 m' over it: to a millimetre, as one reads a tape. */
export const formatTape = (lengthM: number): string =>
  Math.abs(lengthM) < 1 ? `${(lengthM * 100).toFixed(1)} cm` : `${lengthM.toFixed(3)} m`;
