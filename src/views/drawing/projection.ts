import { dot, type Vec3 } from '../../core/vec3.ts';

/**
 * The three sheets. `plan` looks straight down with the usual camera side at the bottom; `front` looks from the camera
 * side; `side` looks from camera right, so that the camera stands at the left of the sheet.
 */
export type Projection = 'plan' | 'front' | 'side';

/** A point of the sheet in metres at full size: u to the right, v down. */
export type SheetPoint = readonly [number, number];

export function projectToSheet(projection: Projection, pointM: Vec3): SheetPoint {
  switch (projection) {
    case 'plan':
      return [pointM[0], pointM[2]];
    case 'front':
      return [pointM[0], -pointM[1]];
    case 'side':
      return [-pointM[2], -pointM[1]];
  }
}

/** World move that shows as (du, dv) on the sheet and does not move toward or away from its viewer. */
export function worldMoveFromSheet(projection: Projection, move: SheetPoint): Vec3 {
  switch (projection) {
    case 'plan':
      return [move[0], 0, move[1]];
    case 'front':
      return [move[0], -move[1], 0];
    case 'side':
      return [0, -move[1], -move[0]];
  }
}

/**
 * The point in the set that a place on the sheet stands for when nothing is there: on the table top for the plan, in the
 * upright plane through `throughM` for the elevations.
 */
export function worldPointFromSheet(projection: Projection, [u, v]: SheetPoint, throughM: Vec3): Vec3 {
  switch (projection) {
    case 'plan':
      return [u, 0, v];
    case 'front':
      return [u, -v, throughM[2]];
    case 'side':
      return [throughM[0], -v, -u];
  }
}

/** Unit direction from the sheet toward whoever reads it. */
export function towardReader(projection: Projection): Vec3 {
  switch (projection) {
    case 'plan':
      return [0, 1, 0];
    case 'front':
      return [0, 0, 1];
    case 'side':
      return [1, 0, 0];
  }
}

export const sheetDistance = (a: SheetPoint, b: SheetPoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Greatest distance of any of these points toward whoever reads the sheet. */
export const nearestM = (points: readonly Vec3[], projection: Projection): number => {
  const reader = towardReader(projection);
  return points.reduce((near, p) => Math.max(near, dot(p, reader)), -Infinity);
};
