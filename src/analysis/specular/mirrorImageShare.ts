import type { CameraView } from '../../camera/view.ts';
import { dot, sub, type Vec3 } from '../../core/vec3.ts';
import { clipPolygon, intersectPolygonsXy, polygonAreaXy } from './clipPolygon.ts';
import { mirrorImagePoint, planeDistanceM } from './mirrorImage.ts';
import type { PlanarMirror } from './planarMirrors.ts';

const NEAR_M = 0.001;

/** Part of the frame, 0..1, that a polygon in space covers, nothing standing in the way. */
export function polygonShareOfFrame(view: CameraView, cornersM: readonly Vec3[], within?: readonly Vec3[]): number {
  const seen = projectPolygon(view, cornersM);
  const frame: Vec3[] = [
    [-view.tanHalfWidth, -view.tanHalfHeight, 1],
    [view.tanHalfWidth, -view.tanHalfHeight, 1],
    [view.tanHalfWidth, view.tanHalfHeight, 1],
    [-view.tanHalfWidth, view.tanHalfHeight, 1],
  ];
  let rest = intersectPolygonsXy(seen, frame);
  if (within) rest = intersectPolygonsXy(rest, projectPolygon(view, within));
  return Math.abs(polygonAreaXy(rest)) / (4 * view.tanHalfWidth * view.tanHalfHeight);
}

/**
 * Part of the frame in which a flat mirror shows a convex polygon, by its mirror image cut to the frame and to the mirror's
 * own outline. Nothing standing in the way is taken into account.
 */
export function mirrorImageShare(view: CameraView, mirror: PlanarMirror, cornersM: readonly Vec3[]): number {
  const eyeSide = Math.sign(planeDistanceM(mirror, view.originM));
  const inFront = clipPolygon(cornersM, (pointM) => eyeSide * planeDistanceM(mirror, pointM));
  if (inFront.length < 3) return 0;
  const imageM = inFront.map((pointM) => mirrorImagePoint(mirror, pointM));
  return polygonShareOfFrame(view, imageM, mirror.outlineM);
}

/** Polygon on the plane at 1 m before the lens, cut to what lies before the lens. */
function projectPolygon(view: CameraView, cornersM: readonly Vec3[]): Vec3[] {
  const ahead = cornersM.map((cornerM): Vec3 => {
    const d = sub(cornerM, view.originM);
    return [dot(d, view.right), dot(d, view.up), dot(d, view.forward)];
  });
  return clipPolygon(ahead, (p) => p[2] - NEAR_M).map((p): Vec3 => [p[0] / p[2], p[1] / p[2], 1]);
}
