import type { Camera } from '../../camera/records.ts';
import type { CameraView } from '../../camera/view.ts';
import { addScaled, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { cameraParts } from '../resources/cameraBody.ts';
import { convexHull } from './hull.ts';
import { mergeLines } from './mergeLines.ts';
import { nearestM, type Projection, projectToSheet, type SheetPoint } from './projection.ts';
import type { SheetItem, SheetLine } from './sheet.ts';
import { hullPoints, surfaceOutlines } from './surfaceOutline.ts';

/** Lines of sight run on past the plane of focus by this factor. */
const SIGHT_OVER_FOCUS = 1.25;

/** The camera: body and lens in outline, the edges of its field, and a tick across the field at the plane of focus. */
export function drawCamera(
  camera: Camera,
  surfaces: readonly OpticalSurface[],
  view: CameraView,
  projection: Projection,
): SheetItem {
  const flat = (points: readonly Vec3[]): SheetPoint[] => points.map((p) => projectToSheet(projection, p));
  const parts = cameraParts(camera);
  const hullOf = (role: string): SheetPoint[] =>
    convexHull(flat(parts.filter((part) => part.role === role).flatMap(hullPoints)));
  const [body, lens] = [hullOf('body'), hullOf('lens')];
  // What the set has of a camera is its matte box.
  const box = mergeLines(surfaces.flatMap((s) => surfaceOutlines(s, projection)));
  const anchor = projectToSheet(projection, camera.positionM);

  const lines: SheetLine[] = [
    ...fieldLines(view, projection),
    { points: lens, closed: true, weight: 'medium' },
    { points: body, closed: true, weight: 'medium' },
  ];
  for (const line of box) lines.push({ ...line, weight: 'thin' });
  const all = [...parts, ...surfaces].flatMap(hullPoints);
  return {
    recordId: 'camera',
    collection: 'camera',
    name: `Camera ${Number(camera.focalLengthMm.toFixed(1))} mm`,
    areas: [lens, body],
    lines,
    hull: convexHull(flat(all)),
    heldInside: true,
    anchor,
    aim: projectToSheet(projection, camera.aimM),
    lit: true,
    nearM: nearestM(all, projection),
  };
}

/**
 * On the plan the left and right edges of the field, on the side sheet the top and bottom; the tick lies between them
 * at the plane of focus. The front sheet looks along the axis: there the field is its rectangle at the plane of focus.
 */
function fieldLines(view: CameraView, projection: Projection): SheetLine[] {
  const along = (a: number, b: number, depthM: number): SheetPoint => {
    const centre = addScaled(view.originM, view.forward, depthM);
    const p = addScaled(
      addScaled(centre, view.right, a * view.tanHalfWidth * depthM),
      view.up,
      b * view.tanHalfHeight * depthM,
    );
    return projectToSheet(projection, p);
  };
  const focusM = view.focusDistanceM;
  if (projection === 'front') {
    const corners = [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ].map(([a, b]) => along(a, b, focusM));
    return [{ points: corners, closed: true, weight: 'hair' }];
  }
  const origin = projectToSheet(projection, view.originM);
  const edge = (side: number, depthM: number): SheetPoint =>
    projection === 'plan' ? along(side, 0, depthM) : along(0, side, depthM);
  return [
    {
      points: [edge(-1, focusM * SIGHT_OVER_FOCUS), origin, edge(1, focusM * SIGHT_OVER_FOCUS)],
      closed: false,
      weight: 'hair',
    },
    { points: [edge(-1, focusM), edge(1, focusM)], closed: false, weight: 'thin' },
  ];
}
