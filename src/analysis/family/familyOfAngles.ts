import type { CameraView } from '../../camera/view.ts';
import { add, addScaled, cross, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { CheckInput } from '../contracts.ts';
import { clipPolygon } from '../specular/clipPolygon.ts';
import { mirrorImagePoint, type Plane, planeDistanceM } from '../specular/mirrorImage.ts';
import { polygonShareOfFrame } from '../specular/mirrorImageShare.ts';
import { type PlanarMirror, planarMirrors } from '../specular/planarMirrors.ts';

/**
 * The family of angles of a flat mirror-like surface: the region of space that it mirrors into the frame. It is the
 * camera's pyramid of view, cut to the part of the surface that the frame holds and mirrored in it: every light in here
 * shows in the surface, none outside does. Nothing that stands in the way is counted. World, metres.
 */
export interface FamilyOfAngles {
  readonly recordId: string;
  readonly surfaceIndex: number;
  /** The mirror, its normal on the side of the lens. */
  readonly mirror: PlanarMirror;
  /** Mirror image of the lens: the tip of the pyramid. */
  readonly apexM: Vec3;
  /** Part of the surface that lies in the frame, corners in order. */
  readonly visibleM: readonly Vec3[];
  /** The region is where the signed distance from all of them is 0 or more: the sides, then the mirror itself. */
  readonly planes: readonly Plane[];
  /** Part of the frame that the surface takes up, 0..1. */
  readonly share: number;
}

/** Faces that take up less of the frame than this are edges. */
const SMALLEST_SHARE = 0.005;
const NEAR_M = 0.001;
/** Places on a face at which it is asked whether the frame sees it at all. */
const LOOKS = 5;

/** The families of all flat mirror-like faces that the frame sees, largest in the frame first. */
export function familiesOfAngles(input: Pick<CheckInput, 'set' | 'scene' | 'view' | 'query'>): FamilyOfAngles[] {
  return planarMirrors(input)
    .flatMap((mirror) => {
      const family = familyOfMirror(input.view, mirror);
      return family && family.share >= SMALLEST_SHARE && isSeen(input, family) ? [family] : [];
    })
    .sort((a, b) => b.share - a.share);
}

/** The family of one mirror, on the side of it where the lens stands; null when it has no part in the frame. */
export function familyOfMirror(view: CameraView, given: PlanarMirror): FamilyOfAngles | null {
  const side = planeDistanceM(given, view.originM);
  if (Math.abs(side) < 1e-6) return null;
  const mirror = side > 0 ? given : { ...given, normal: scale(given.normal, -1) };
  const visibleM = cutToFrame(view, given.outlineM);
  if (visibleM.length < 3) return null;
  const apexM = mirrorImagePoint(mirror, view.originM);
  const middleM = meanPoint(visibleM);
  const sides = visibleM.flatMap((corner, i): Plane[] => {
    const next = visibleM[(i + 1) % visibleM.length];
    const across = cross(sub(corner, apexM), sub(next, apexM));
    if (length(across) < 1e-12) return [];
    const normal = normalize(across);
    return [{ pointM: apexM, normal: dot(sub(middleM, apexM), normal) >= 0 ? normal : scale(normal, -1) }];
  });
  return {
    recordId: mirror.recordId,
    surfaceIndex: mirror.surfaceIndex,
    mirror,
    apexM,
    visibleM,
    planes: [...sides, { pointM: mirror.pointM, normal: mirror.normal }],
    share: polygonShareOfFrame(view, visibleM),
  };
}

/** Does the surface mirror this point into the frame? */
export const pointInFamily = (family: FamilyOfAngles, pointM: Vec3): boolean =>
  family.planes.every((plane) => planeDistanceM(plane, pointM) >= 0);

/** Part of a convex polygon that the surface mirrors into the frame; fewer than three corners when there is none. */
export const polygonInFamily = (family: FamilyOfAngles, cornersM: readonly Vec3[]): Vec3[] =>
  family.planes.reduce<Vec3[]>(
    (rest, plane) => (rest.length === 0 ? rest : clipPolygon(rest, (pointM) => planeDistanceM(plane, pointM))),
    [...cornersM],
  );

/** From each corner of the visible part outward along the mirrored view. */
export const cornerRays = (family: FamilyOfAngles, reachM: number): (readonly [Vec3, Vec3])[] =>
  family.visibleM.map((corner) => [corner, addScaled(corner, normalize(sub(corner, family.apexM)), reachM)] as const);

function cutToFrame(view: CameraView, outlineM: readonly Vec3[]): Vec3[] {
  const sides: readonly Vec3[] = [
    addScaled(view.right, view.forward, view.tanHalfWidth),
    addScaled(scale(view.right, -1), view.forward, view.tanHalfWidth),
    addScaled(view.up, view.forward, view.tanHalfHeight),
    addScaled(scale(view.up, -1), view.forward, view.tanHalfHeight),
  ];
  const ahead = clipPolygon(outlineM, (pointM) => dot(sub(pointM, view.originM), view.forward) - NEAR_M);
  return sides.reduce<Vec3[]>(
    (rest, inward) => (rest.length === 0 ? rest : clipPolygon(rest, (p) => dot(sub(p, view.originM), inward))),
    ahead,
  );
}

/** Does the lens see any of it, not the far side of a board? */
function isSeen({ view, query }: Pick<CheckInput, 'view' | 'query'>, family: FamilyOfAngles): boolean {
  const middleM = meanPoint(family.visibleM);
  for (const corner of family.visibleM) {
    for (let i = 0; i < LOOKS; i++) {
      const pointM = addScaled(middleM, sub(corner, middleM), (i + 0.5) / LOOKS);
      const hit = query.closestHit(view.originM, normalize(sub(pointM, view.originM)));
      if (hit?.surfaceIndex === family.surfaceIndex) return true;
    }
  }
  return false;
}

const meanPoint = (pointsM: readonly Vec3[]): Vec3 =>
  scale(
    pointsM.reduce<Vec3>((sum, p) => add(sum, p), [0, 0, 0]),
    1 / pointsM.length,
  );
