import { rayThrough } from '../../camera/projection.ts';
import { measureCells } from '../light/surfaceLight.ts';
import type { BackgroundPlace, FrameStudy, SeenCell, SurfaceLight } from '../study.ts';

/** Side of a window, in widths of the frame. */
const WINDOW = 0.1;
/** Places read in each, on a Fibonacci lattice: even across and even down, so that stripes either way are met alike. */
const SAMPLES = 34;
const SAMPLES_BEFORE = 21;
/** A window that the background fills less than this is left out. */
const LEAST_FILLED = 1 / 3;
/** Part of the places of a window, the brightest ones, that counts as lit. */
const LIT_PART = 1 / 8;

/**
 * Light over the background by windows of a tenth of the frame, for one that carries stripes of shadow: of 34 places spread
 * evenly over a window the mean, as with narrowed eyes; or the mean of the brightest eighth, as a spot meter reads the lit
 * stripes.
 *
 * @returns the windows as the cells of `place`, each at the middle of what it read, and their light
 */
export function readInWindows(
  study: FrameStudy,
  place: BackgroundPlace,
  read: 'litParts' | 'smoothed',
): SurfaceLight & { readonly place: BackgroundPlace } {
  const groups = windowsOf(study, place);
  const light = measureCells(study, groups.flat(), 'background windows');
  const cells: SeenCell[] = [];
  const nits = new Float64Array(groups.length);
  const lux = new Float64Array(groups.length);
  let start = 0;
  groups.forEach((group, i) => {
    cells.push(middleOf(group));
    const order = Array.from(group.keys()).sort((a, b) => light.nits[start + b] - light.nits[start + a]);
    const kept = read === 'litParts' ? order.slice(0, Math.max(1, Math.round(LIT_PART * SAMPLES))) : order;
    for (const at of kept) {
      nits[i] += light.nits[start + at] / kept.length;
      lux[i] += light.lux[start + at] / kept.length;
    }
    start += group.length;
  });
  return { ...light, place: { ...place, cells }, nits, lux };
}

/** Places on the background, window by window. */
function windowsOf({ input }: FrameStudy, place: BackgroundPlace): SeenCell[][] {
  const { view, query, set } = input;
  const columns = Math.round(1 / WINDOW);
  const rows = Math.max(1, Math.round((columns * view.tanHalfHeight) / view.tanHalfWidth));
  const asked = new Set(place.cells.map(({ u, v }) => Math.floor(v * rows) * columns + Math.floor(u * columns)));
  return [...asked].flatMap((window) => {
    const [column, row] = [window % columns, Math.floor(window / columns)];
    const cells: SeenCell[] = [];
    for (let i = 0; i < SAMPLES; i++) {
      const u = (column + (i + 0.5) / SAMPLES) / columns;
      const v = (row + (((i * SAMPLES_BEFORE) % SAMPLES) + 0.5) / SAMPLES) / rows;
      const { originM, direction } = rayThrough(view, u, v);
      const hit = query.closestHit(originM, direction);
      if (!hit || set.surfaces[hit.surfaceIndex].recordId !== place.recordId) continue;
      const [x, y, z] = hit.normal;
      const normal = hit.front ? hit.normal : ([-x, -y, -z] as const);
      cells.push({ u, v, pointM: hit.pointM, normal, front: hit.front, surfaceIndex: hit.surfaceIndex });
    }
    return cells.length >= LEAST_FILLED * SAMPLES ? [cells] : [];
  });
}

/** The place nearest to the middle of a window, with the middle as its place in the frame. */
function middleOf(group: readonly SeenCell[]): SeenCell {
  const u = group.reduce((sum, cell) => sum + cell.u, 0) / group.length;
  const v = group.reduce((sum, cell) => sum + cell.v, 0) / group.length;
  const near = group.reduce((best, cell) =>
    Math.hypot(cell.u - u, cell.v - v) < Math.hypot(best.u - u, best.v - v) ? cell : best,
  );
  return { ...near, u, v };
}
