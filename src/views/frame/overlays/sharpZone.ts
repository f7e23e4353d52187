import { blurCircleM, circleOfConfusionM } from '../../../camera/depthOfField.ts';
import { rayThrough } from '../../../camera/projection.ts';
import type { Camera } from '../../../camera/records.ts';
import type { CameraView } from '../../../camera/view.ts';
import { dot } from '../../../core/vec3.ts';
import type { RayQuery } from '../../../transport/contracts.ts';

/** How deep the set is behind each cell of a grid over the frame. */
export interface DepthGrid {
  readonly columns: number;
  readonly rows: number;
  /** rows x columns, 1/m along the lens axis at the middle of each cell; 0 where nothing stands. */
  readonly perM: Float32Array;
}

/**
 * Depth of what the lens sees first, glass included, by one ray through the middle of each cell. The inverse is kept: over a flat
 * surface it is linear in the frame, so that it may be interpolated.
 *
 * @param rowRange rows to fill, for work in slices; all when left out.
 */
export function fillDepthGrid(
  query: RayQuery,
  view: CameraView,
  grid: DepthGrid,
  [from, to]: readonly [number, number] = [0, grid.rows],
): void {
  const { columns, rows, perM } = grid;
  for (let row = from; row < to; row++) {
    for (let column = 0; column < columns; column++) {
      const { originM, direction } = rayThrough(view, (column + 0.5) / columns, (row + 0.5) / rows);
      const hit = query.closestHit(originM, direction);
      perM[row * columns + column] = hit ? 1 / (hit.tM * dot(direction, view.forward)) : 0;
    }
  }
}

export const createDepthGrid = (columns: number, rows: number): DepthGrid => ({
  columns,
  rows,
  perM: new Float32Array(columns * rows),
});

/** Inverse depth at a place of the frame, straight between the middles of cells. */
export function depthAt({ columns, rows, perM }: DepthGrid, u: number, v: number): number {
  const x = Math.min(columns - 1, Math.max(0, u * columns - 0.5));
  const y = Math.min(rows - 1, Math.max(0, v * rows - 0.5));
  const x0 = Math.floor(x);
  const y0 = Math.floor(y);
  const x1 = Math.min(columns - 1, x0 + 1);
  const y1 = Math.min(rows - 1, y0 + 1);
  const fx = x - x0;
  const fy = y - y0;
  const top = perM[y0 * columns + x0] * (1 - fx) + perM[y0 * columns + x1] * fx;
  const bottom = perM[y1 * columns + x0] * (1 - fx) + perM[y1 * columns + x1] * fx;
  return top * (1 - fy) + bottom * fy;
}

/** Blur on the sensor in circles of confusion, with a sign: under 0 in front of the focus, over 0 behind it. */
export function signedBlurCircles(camera: Camera, perM: number, divisor: number): number {
  const { focalLengthMm, apertureFNumber, focusDistanceM, pupilRatio } = camera;
  // What lies beyond the set counts as a kilometre away: the blur there has long come to rest.
  const depthM = 1 / Math.max(perM, 1e-3);
  const blurM = blurCircleM(focalLengthMm / 1000, apertureFNumber, focusDistanceM, depthM, pupilRatio);
  const circles = Math.abs(blurM) / circleOfConfusionM(camera, divisor);
  return depthM < focusDistanceM ? -circles : circles;
}

const HATCH_PX = 9;
/** From here on a place is as soft as the veil can say. */
const SOFT_CIRCLES = 6;

/**
 * Veils what is not sharp and leaves what is: hatched rising to the right behind the sharp depth, falling to the right in
 * front of it, denser the softer. The edge of the sharp depth is drawn as a line.
 *
 * @param image RGBA, written over; transparent where it is sharp.
 * @param divisor sensor diagonal over this passes as sharp.
 */
export function paintSharpZone(grid: DepthGrid, camera: Camera, divisor: number, image: ImageData): void {
  const { width, height, data } = image;
  // Blur hangs on depth alone, so a table over inverse depth spares half a million roots.
  const steps = 2048;
  let most = 1e-3;
  for (const value of grid.perM) most = Math.max(most, value);
  const table = Float32Array.from({ length: steps + 2 }, (_, i) =>
    signedBlurCircles(camera, (i / steps) * most, divisor),
  );
  const circles = new Float32Array(width * height);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const at = (depthAt(grid, (x + 0.5) / width, (y + 0.5) / height) / most) * steps;
      const k = Math.floor(at);
      circles[i] = table[k] + (table[k + 1] - table[k]) * (at - k);
    }
  }
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const o = i * 4;
      const here = circles[i];
      const soft = Math.abs(here) > 1;
      const edge =
        (x + 1 < width && soft !== Math.abs(circles[i + 1]) > 1) ||
        (y + 1 < height && soft !== Math.abs(circles[i + width]) > 1);
      if (edge) {
        put(data, o, ACCENT, 235);
        continue;
      }
      if (!soft) {
        data[o + 3] = 0;
        continue;
      }
      const softness = Math.min(1, (Math.abs(here) - 1) / (SOFT_CIRCLES - 1));
      const onLine = (here > 0 ? x + y : x - y + height * HATCH_PX) % HATCH_PX < 1;
      if (onLine) put(data, o, PAPER, 50 + 30 * softness);
      else put(data, o, ROOM, 95 + 85 * softness);
    }
  }
}

type Rgb = readonly [number, number, number];
const ACCENT: Rgb = [226, 163, 86];
const PAPER: Rgb = [233, 226, 214];
const ROOM: Rgb = [13, 12, 11];

function put(data: Uint8ClampedArray, at: number, rgb: Rgb, alpha: number): void {
  data[at] = rgb[0];
  data[at + 1] = rgb[1];
  data[at + 2] = rgb[2];
  data[at + 3] = alpha;
}
