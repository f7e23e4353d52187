import type { Camera } from '../../camera/records.ts';
import type { CameraView } from '../../camera/view.ts';
import { applyToPoint, fromAim } from '../../core/rigid.ts';
import { radFromDeg } from '../../core/units.ts';
import { addScaled, type Vec3 } from '../../core/vec3.ts';
import { convexHull, type DrawingSide, type Outline, type SheetPoint } from '../../scene/outline.ts';
import type { DrawnItem, DrawnLine } from './drawnItem.ts';
import { projectToSheet, sheetFromOutline } from './projectToSheet.ts';
import { CAMERA_RECORD_ID } from './standPlaces.ts';

/** A stand-in body behind the lens; the front element is the record's own. */
const BODY_M = { width: 0.14, height: 0.1, depth: 0.075 };
const LENS_LENGTH_M = 0.1;
const BARREL_OVER_FRONT = 1.25;
/** Lines of sight run on past the plane of focus by this factor. */
const SIGHT_OVER_FOCUS = 1.15;

/** Body and lens in outline, matte box, the edges of the field of view, and a tick across it at the plane of focus. */
export function drawCamera(
  camera: Camera,
  view: CameraView,
  matteBox: readonly Outline[],
  side: DrawingSide,
): DrawnItem {
  const frame = fromAim(camera.positionM, camera.aimM, radFromDeg(camera.rollDeg));
  const hullOf = (localM: readonly Vec3[]): SheetPoint[] =>
    convexHull(localM.map((p) => projectToSheet(side, applyToPoint(frame, p))));
  const radiusM = (camera.frontElementDiameterM * BARREL_OVER_FRONT) / 2;
  const body = hullOf(corners(BODY_M.width / 2, BODY_M.height / 2, [-LENS_LENGTH_M - BODY_M.depth, -LENS_LENGTH_M]));
  const lens = hullOf(barrel(radiusM, [-LENS_LENGTH_M, 0]));
  const box = matteBox.map(
    ({ pointsM, closed }): DrawnLine => ({
      pointsM: pointsM.map((p) => sheetFromOutline(side, p)),
      closed,
      weight: 'thin',
    }),
  );
  const lines: DrawnLine[] = [
    ...fieldLines(view, side),
    { pointsM: lens, closed: true, weight: 'medium' },
    { pointsM: body, closed: true, weight: 'medium' },
    ...box,
  ];
  return {
    recordId: CAMERA_RECORD_ID,
    kind: 'camera',
    name: 'Camera',
    lines,
    hullM: convexHull([...body, ...lens, ...box.flatMap(({ pointsM }) => pointsM)]),
    isGround: false,
  };
}

/** Plan: left and right edges; side: top and bottom; front: the field itself at the plane of focus. */
function fieldLines(view: CameraView, side: DrawingSide): DrawnLine[] {
  const at = (a: number, b: number, depthM: number): SheetPoint => {
    const centre = addScaled(view.originM, view.forward, depthM);
    const across = addScaled(centre, view.right, a * view.tanHalfWidth * depthM);
    return projectToSheet(side, addScaled(across, view.up, b * view.tanHalfHeight * depthM));
  };
  const focusM = view.focusDistanceM;
  if (side === 'front') {
    const field = [at(-1, -1, focusM), at(1, -1, focusM), at(1, 1, focusM), at(-1, 1, focusM)];
    return [{ pointsM: field, closed: true, weight: 'hair', dash: 'dashed' }];
  }
  const edge = (sign: number, depthM: number): SheetPoint =>
    side === 'plan' ? at(sign, 0, depthM) : at(0, sign, depthM);
  const farM = focusM * SIGHT_OVER_FOCUS;
  const lens = projectToSheet(side, view.originM);
  return [
    { pointsM: [edge(-1, farM), lens, edge(1, farM)], closed: false, weight: 'hair', dash: 'dashed' },
    { pointsM: [edge(-1, focusM), edge(1, focusM)], closed: false, weight: 'thin' },
  ];
}

const corners = (x: number, y: number, zs: readonly number[]): Vec3[] =>
  zs.flatMap((z): Vec3[] => [
    [-x, -y, z],
    [x, -y, z],
    [x, y, z],
    [-x, y, z],
  ]);

const barrel = (radiusM: number, zs: readonly number[]): Vec3[] =>
  zs.flatMap((z) =>
    Array.from({ length: 48 }, (_, i): Vec3 => {
      const a = (2 * Math.PI * i) / 48;
      return [radiusM * Math.cos(a), radiusM * Math.sin(a), z];
    }),
  );
