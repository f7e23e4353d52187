import { rayThrough } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import { addScaled, distance, normalize, sub, type Vec3 } from '../../core/vec3.ts';
import type { SetModel } from '../../scene/setModel.ts';
import type { Hit, RayQuery } from '../../transport/contracts.ts';

/** Off the surface, so that it does not shade itself. */
const OFF_M = 1e-4;
const LOWEST_M = 0.02;

/** A place in a shadow, as a hand takes hold of it in the frame. */
export interface ShadowGrip {
  /** What throws it there, and where on it. */
  readonly casterId: string;
  readonly casterM: Vec3;
  /** From there to the light. */
  readonly distanceM: number;
}

/**
 * What throws the shadow of a light on the place seen in the frame: the first thing met on the way from there to the middle
 * of the light. Null where the light reaches the place.
 */
export function findShadow(
  query: RayQuery,
  set: SetModel,
  view: CameraView,
  [u, v]: readonly [number, number],
  light: { readonly id: string; readonly positionM: Vec3 },
): ShadowGrip | null {
  const seen = placeSeen(query, set, view, u, v);
  if (!seen) return null;
  const receiverId = set.surfaces[seen.surfaceIndex].recordId;
  const toLight = normalize(sub(light.positionM, seen.pointM));
  const start = addScaled(seen.pointM, toLight, OFF_M);
  const hits = query.hitsAlong(start, toLight, distance(start, light.positionM));
  const caster = hits.find(({ surfaceIndex }) => {
    const { recordId } = set.surfaces[surfaceIndex];
    return recordId !== receiverId && recordId !== light.id;
  });
  if (!caster) return null;
  return {
    casterId: set.surfaces[caster.surfaceIndex].recordId,
    casterM: caster.pointM,
    distanceM: distance(caster.pointM, light.positionM),
  };
}

/**
 * Where the light must stand for that point of the caster to throw its shadow on another place of the frame: on the line
 * from there through the point, at the same distance from it.
 *
 * @returns null where nothing is seen, or the light would stand under the table
 */
export function lightForShadow(
  query: RayQuery,
  set: SetModel,
  view: CameraView,
  [u, v]: readonly [number, number],
  { casterM, distanceM }: Pick<ShadowGrip, 'casterM' | 'distanceM'>,
): Vec3 | null {
  const seen = placeSeen(query, set, view, u, v);
  if (!seen || distance(seen.pointM, casterM) < OFF_M) return null;
  const placeM = addScaled(casterM, normalize(sub(casterM, seen.pointM)), distanceM);
  return placeM[1] >= LOWEST_M ? placeM : null;
}

/** The first thing that is seen and is not clear: shadows lie on it. */
function placeSeen(query: RayQuery, set: SetModel, view: CameraView, u: number, v: number): Hit | undefined {
  const { originM, direction } = rayThrough(view, u, v);
  return query
    .hitsAlong(originM, direction)
    .find(({ surfaceIndex }) => set.surfaces[surfaceIndex].finish.type !== 'clear');
}
