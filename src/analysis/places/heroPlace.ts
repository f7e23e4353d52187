import { compose, fromAxes, type RigidTransform } from '../../core/rigid.ts';
import { dot, type Vec3 } from '../../core/vec3.ts';
import { boundsOfShape, uniteBounds } from '../../scene/bounds.ts';
import type { Bounds } from '../../scene/setModel.ts';
import { placePiece } from '../../scene/turntable.ts';
import type { CheckInput } from '../contracts.ts';
import type { HeroPlace } from '../study.ts';
import { pieceOf } from '../words.ts';
import { outerRadiusOf, widestRadiusM } from './outerRadius.ts';

/** How much of its height counts as the foot and as the top. */
const END_SHARE = 0.1;
/** Surfaces looked through on the way down to what the hero stands on. */
const MOST_HITS = 24;
const DEEPEST_M = 0.05;

/** Null when the hero is not in this frame. */
export function findHeroPlace({ scene, set, query }: CheckInput): HeroPlace | null {
  const recordId = scene.subject.pieceId;
  const piece = pieceOf(scene, recordId);
  const bounds = set.boundsByRecord.get(recordId);
  if (!piece || !bounds) return null;
  const placed = placePiece(piece, scene.turntable, scene.turntableAngleDeg).translationM;
  const from: Vec3 = [placed[0], bounds.minM[1] + 1e-4, placed[2]];
  const under = query
    .hitsAlong(from, [0, -1, 0], DEEPEST_M, MOST_HITS)
    .find((hit) => set.surfaces[hit.surfaceIndex].recordId !== recordId);
  const footM: Vec3 = under ? under.pointM : [placed[0], bounds.minM[1], placed[2]];
  const heightM = bounds.maxM[1] - footM[1];
  const [low, high] = [bounds.minM[1], bounds.maxM[1]];
  const radiusAtM = outerRadiusOf({ set }, recordId);
  const radiusBetween = (fromM: number, toM: number): number => widestRadiusM(radiusAtM, fromM, toM);
  const radiusM = widestRadiusM(radiusAtM, low, high, 24);
  return {
    recordId,
    footM,
    topM: [placed[0], bounds.maxM[1], placed[2]],
    heightM,
    radiusM,
    footRadiusM: radiusBetween(low, low + END_SHARE * heightM) || radiusM,
    topRadiusM: radiusBetween(high - END_SHARE * heightM, high) || radiusM,
    support: under
      ? {
          surfaceIndex: under.surfaceIndex,
          recordId: set.surfaces[under.surfaceIndex].recordId,
          normal: under.front ? under.normal : [-under.normal[0], -under.normal[1], -under.normal[2]],
        }
      : null,
    bounds,
  };
}

/** World axes turned so that z runs along the lens axis: for exact extents in depth. */
export const viewFromWorld = (right: Vec3, up: Vec3, forward: Vec3, originM: Vec3): RigidTransform => {
  const turned = fromAxes(
    [right[0], up[0], forward[0]],
    [right[1], up[1], forward[1]],
    [right[2], up[2], forward[2]],
    [0, 0, 0],
  );
  return { ...turned, translationM: [-dot(originM, right), -dot(originM, up), -dot(originM, forward)] };
};

/** Exact bounds of a record in a turned frame, or null when it has no surfaces. */
export function boundsIn(
  { set }: Pick<CheckInput, 'set'>,
  recordId: string,
  frameFromWorld: RigidTransform,
  pick: (role: string) => boolean = () => true,
): Bounds | null {
  let united: Bounds | null = null;
  for (const surface of set.surfaces) {
    if (surface.recordId !== recordId || !pick(surface.role)) continue;
    const own = boundsOfShape({
      shape: surface.shape,
      worldFromLocal: compose(frameFromWorld, surface.worldFromLocal),
    });
    united = united ? uniteBounds(united, own) : own;
  }
  return united;
}
