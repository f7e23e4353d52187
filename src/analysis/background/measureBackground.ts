import { measureCells } from '../light/surfaceLight.ts';
import type { BackgroundLight, BackgroundPlace, FrameStudy, SeenCell } from '../study.ts';
import { readInWindows } from './readInWindows.ts';

/** Cells within this of the brightest make up the hot spot. */
const HOT_STOPS = 0.2;
/** Darker than this share of the brightest counts as black. */
const LEAST_SHARE = 1e-5;

/** What lies darker than this under the brightest draws the fitted gradient no further. */
const FIT_STOPS = 5;

/**
 * Illuminance and luminance over the background on a grid of about 20 x 11 places of the frame, or by windows where the frame
 * has it read by its lit parts or smoothed.
 */
export function measureBackground(study: FrameStudy, place: BackgroundPlace): BackgroundLight {
  const { backgroundRead } = study.input.limits;
  const windows = backgroundRead === 'asSeen' ? null : readInWindows(study, place, backgroundRead);
  const light =
    windows && windows.nits.length > 0 ? windows : { place, ...measureCells(study, place.cells, 'background') };
  return { ...light, ...summarise(light.place.cells, light.nits, light.lux, study) };
}

function summarise(cells: readonly SeenCell[], nits: Float64Array, lux: Float64Array, study: FrameStudy) {
  const [brightest, darkest] = [most(nits), least(nits)];
  const hot = cells.filter((_, i) => nits[i] >= nits[brightest] * 2 ** -HOT_STOPS);
  return {
    spreadStops: stopsBetween(nits[darkest], nits[brightest]),
    luxSpreadStops: stopsBetween(lux[least(lux)], lux[most(lux)]),
    gradient: fitGradient(cells, nits, study.input.view.tanHalfWidth / study.input.view.tanHalfHeight),
    hotSpot: {
      u: hot.reduce((total, cell) => total + cell.u, 0) / hot.length,
      v: hot.reduce((total, cell) => total + cell.v, 0) / hot.length,
    },
    darkest: { u: cells[darkest].u, v: cells[darkest].v },
  };
}

const most = (values: Float64Array): number => values.reduce((best, value, i) => (value > values[best] ? i : best), 0);
const least = (values: Float64Array): number => values.reduce((best, value, i) => (value < values[best] ? i : best), 0);
const stopsBetween = (low: number, high: number): number =>
  high > 0 ? Math.log2(high / Math.max(low, high * LEAST_SHARE)) : 0;

/**
 * Least-squares plane of log2 luminance over the frame, u scaled to the height of the frame so that angles are true.
 *
 * @returns rise over the background along the steepest way, and that way in the frame: 0 right, 90 up
 */
function fitGradient(cells: readonly SeenCell[], nits: Float64Array, aspect: number) {
  const brightest = nits[most(nits)];
  if (!(brightest > 0)) return { stops: 0, directionDeg: 0 };
  const xs = cells.map(({ u }) => u * aspect);
  const ys = cells.map(({ v }) => -v);
  const logs = Array.from(nits, (value) => Math.log2(Math.max(value, brightest * 2 ** -FIT_STOPS)));
  const mean = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0) / values.length;
  const [mx, my, ml] = [mean(xs), mean(ys), mean(logs)];
  let [xx, xy, yy, xl, yl] = [0, 0, 0, 0, 0];
  for (let i = 0; i < xs.length; i++) {
    const [x, y, l] = [xs[i] - mx, ys[i] - my, logs[i] - ml];
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xl += x * l;
    yl += y * l;
  }
  const det = xx * yy - xy * xy;
  const [gx, gy] =
    det > 1e-9 ? [(xl * yy - yl * xy) / det, (yl * xx - xl * xy) / det] : xx >= yy && xx > 0 ? [xl / xx, 0] : [0, 0];
  const fitted = xs.map((x, i) => gx * x + gy * ys[i]);
  return {
    stops: Math.max(...fitted) - Math.min(...fitted),
    directionDeg: (Math.atan2(gy, gx) * 180) / Math.PI,
  };
}

/** The cell of the background nearest to a place in the frame. */
export const nearestCell = ({ place }: Pick<BackgroundLight, 'place'>, u: number, v: number) =>
  place.cells.reduce((best, cell) =>
    Math.hypot(cell.u - u, cell.v - v) < Math.hypot(best.u - u, best.v - v) ? cell : best,
  );
