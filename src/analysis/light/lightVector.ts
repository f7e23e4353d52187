import { addScaled, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { FrameStudy } from '../study.ts';
import { angularSizeRad, type Caster, findCasters, outlineOf, partsOf, partsPerSide } from './casters.ts';

/** One light as it arrives at a point. */
export interface ArrivingLight {
  readonly caster: Caster;
  /** Illuminance square to it, lx. */
  readonly lux: number;
  /** Unit, from the point toward the light. */
  readonly direction: Vec3;
  /** How large it is seen, radians. */
  readonly sizeRad: number;
}

/** The light at a point by where it comes from. */
export interface LightAt {
  readonly pointM: Vec3;
  /** Strongest first. */
  readonly lights: readonly ArrivingLight[];
  /** Sum of all lights as vectors (Gershun's light vector, bounce off the set left out): its length in lx, its way unit. */
  readonly vectorLux: number;
  readonly vector: Vec3;
  /** Part of all arriving light that the strongest one gives. */
  readonly dominance: number;
}

/**
 * Where the light at a point comes from: each fixture, card and cloth that has a clear line to it, weighed square to its own
 * direction and cut off at the surface that the point lies on.
 *
 * @param normal of that surface; null for a point in the air, which is lit from all sides
 * @param ignore surfaces that cast no shadow, for example the hero
 */
export function lightAt(
  study: FrameStudy,
  pointM: Vec3,
  normal: Vec3 | null,
  ignore?: (surfaceIndex: number) => boolean,
): LightAt {
  const { query } = study.input;
  const axis: Vec3 = normal ?? [0, 1, 0];
  const fromM = normal ? addScaled(pointM, normal, LIFT_M) : pointM;
  const response = normal ? (cos: number): number => (cos > 0 ? 1 : 0) : (): number => 1;
  const lights = findCasters(study).flatMap((caster): ArrivingLight[] => {
    const parts = partsOf(study, caster, fromM, axis, response, (source) => partsPerSide(source, fromM)).filter(
      (part) => !query.blocked(fromM, part.pointM, ignore),
    );
    let sum: Vec3 = [0, 0, 0];
    let lux = 0;
    for (const part of parts) {
      sum = addScaled(sum, normalize(sub(part.pointM, fromM)), part.lux);
      lux += part.lux;
    }
    if (!(lux > 0) || length(sum) < 1e-9) return [];
    const sizeRad = angularSizeRad(outlineOf(study, caster, fromM), fromM);
    return [{ caster, lux, direction: normalize(sum), sizeRad }];
  });
  lights.sort((a, b) => b.lux - a.lux || (a.caster.id < b.caster.id ? -1 : 1));
  const vector = lights.reduce<Vec3>((sum, { direction, lux }) => addScaled(sum, direction, lux), [0, 0, 0]);
  const total = lights.reduce((sum, { lux }) => sum + lux, 0);
  return {
    pointM,
    lights,
    vectorLux: length(vector),
    vector: length(vector) > 0 ? scale(vector, 1 / length(vector)) : [0, 1, 0],
    dominance: total > 0 ? lights[0].lux / total : 0,
  };
}

const LIFT_M = 1e-5;

/** Angle between two unit directions, radians. */
export const angleBetweenRad = (a: Vec3, b: Vec3): number => Math.acos(Math.min(1, Math.max(-1, dot(a, b))));
