import { rayThrough } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import { addScaled, distance, dot, negate, reflect, type Vec3 } from '../../core/vec3.ts';
import type { Finish } from '../../materials/finish.ts';
import type { SetModel } from '../../scene/setModel.ts';
import type { Hit, RayQuery } from '../../transport/contracts.ts';

/** A surface rougher than this shows a sheen and no image that one could take hold of. */
const MIRROR_ROUGHNESS = 0.35;
/** Off the surface, so that the mirrored ray does not meet it again. */
const OFF_M = 1e-5;
/** A light lower than this would stand in the table. */
const LOWEST_M = 0.02;

/** The image of a light in a polished surface, as a hand takes hold of it in the frame. */
export interface Highlight {
  readonly fixtureId: string;
  /** Where on the surface it is seen. */
  readonly mirrorM: Vec3;
  /** From there to the light. */
  readonly distanceM: number;
}

/**
 * The light that the first surface under a place of the frame mirrors to the lens; null where it mirrors none.
 *
 * @param u, v place in the frame, right and down, 0..1
 */
export function findHighlight(
  query: RayQuery,
  set: SetModel,
  view: CameraView,
  u: number,
  v: number,
): Highlight | null {
  const mirrored = mirrorAt(query, set, view, u, v);
  if (!mirrored) return null;
  const hits = query.hitsAlong(mirrored.originM, mirrored.direction);
  const lit = hits.find(({ surfaceIndex }) => set.surfaces[surfaceIndex].finish.type !== 'clear');
  const fixtureId = lit && set.surfaces[lit.surfaceIndex].emission?.fixtureId;
  if (!lit || fixtureId === undefined || !lit.front) return null;
  return { fixtureId, mirrorM: mirrored.originM, distanceM: distance(mirrored.originM, lit.pointM) };
}

/**
 * Where a light must stand for its highlight to lie at a place of the frame: along the mirrored ray, at a distance from the
 * mirroring point. Law of reflection at the exact normal of the surface.
 *
 * @returns null where the first surface is no mirror, or the light would stand under the table
 */
export function lightForHighlight(
  query: RayQuery,
  set: SetModel,
  view: CameraView,
  [u, v]: readonly [number, number],
  distanceM: number,
): Vec3 | null {
  const mirrored = mirrorAt(query, set, view, u, v);
  if (!mirrored) return null;
  const placeM = addScaled(mirrored.originM, mirrored.direction, distanceM);
  return placeM[1] >= LOWEST_M ? placeM : null;
}

function mirrorAt(query: RayQuery, set: SetModel, view: CameraView, u: number, v: number) {
  const { originM, direction } = rayThrough(view, u, v);
  const hit = query.closestHit(originM, direction);
  if (!hit || !isMirror(set.surfaces[hit.surfaceIndex].finish)) return null;
  const normal = facing(hit, direction);
  return { originM: addScaled(hit.pointM, normal, OFF_M), direction: reflect(negate(direction), normal) };
}

const facing = ({ normal }: Hit, direction: Vec3): Vec3 => (dot(normal, direction) > 0 ? negate(normal) : normal);

function isMirror(finish: Finish): boolean {
  if (finish.type === 'clear') return true;
  return 'roughness' in finish ? (finish.roughness ?? 0) <= MIRROR_ROUGHNESS : finish.type === 'mirror';
}
