import { luminanceFromRec2020, rec2020FromRec709 } from '../../core/color/spaces.ts';
import type { Finish } from '../../materials/finish.ts';
import type { FrameStudy } from '../frameStudy.ts';
import { gatherAccurate } from '../light/accurateLux.ts';
import { joinPatches } from '../light/bouncePatches.ts';
import { backResponse } from '../light/gatherSource.ts';
import type { BackgroundCell, BackgroundPlace } from '../places/backgroundPlace.ts';

/** Light over the visible background. Places in the frame, 0..1. */
export interface BackgroundLight {
  readonly place: BackgroundPlace;
  /** Luminance toward the lens and illuminance on the lens's side, in the order of the cells. */
  readonly nits: Float64Array;
  readonly lux: Float64Array;
  /** By film layer, mean over the cells, lx. */
  readonly meanLayerLux: Float64Array;
  readonly meanNits: number;
  readonly meanLux: number;
  /** Brightest over darkest cell, stops. */
  readonly spreadStops: number;
  readonly luxSpreadStops: number;
  /** Fitted plane of log luminance over the frame: its rise across the background, and where it rises to. */
  readonly gradient: { readonly stops: number; readonly directionDeg: number };
  /** Middle of the brightest part, and the darkest cell. */
  readonly hotSpot: { readonly u: number; readonly v: number };
  readonly darkest: { readonly u: number; readonly v: number };
}

/** Cells within this of the brightest make up the hot spot. */
const HOT_STOPS = 0.2;
/** Darker than this share of the brightest counts as black. */
const LEAST_SHARE = 1e-5;

/** What lies darker than this under the brightest draws the fitted gradient no further. */
const FIT_STOPS = 5;

/** Illuminance and luminance over the background on a grid of about 20 x 11 places of the frame. */
export function measureBackground(study: FrameStudy, place: BackgroundPlace): BackgroundLight {
  const { input, light } = study;
  const layers = light.layerCount;
  // Near sheets count in full; what comes off the rest of the set is broad.
  const patches = [...study.patches(), ...joinPatches(study.setPatches())];
  const nits = new Float64Array(place.cells.length);
  const lux = new Float64Array(place.cells.length);
  const meanLayerLux = new Float64Array(layers);
  const front = new Float64Array(layers);
  const back = new Float64Array(layers);
  place.cells.forEach((cell, i) => {
    const { finish } = input.set.surfaces[cell.surfaceIndex];
    front.fill(0);
    gatherAccurate(light, patches, cell.pointM, cell.normal, front);
    lux[i] = sum(front);
    front.forEach((value, layer) => {
      meanLayerLux[layer] += value / place.cells.length;
    });
    const scatters = reflectances(finish);
    if (!scatters || light.sourceOfSurface[cell.surfaceIndex] >= 0) {
      nits[i] = seenNits(study, cell);
      return;
    }
    back.fill(0);
    if (scatters.transmittance > 0)
      gatherAccurate(light, patches, cell.pointM, cell.normal, back, { response: backResponse });
    nits[i] = (scatters.reflectance * lux[i] + scatters.transmittance * sum(back)) / Math.PI;
  });
  return { place, nits, lux, meanLayerLux, ...summarise(place.cells, nits, lux, study) };
}

/** Luminous reflectance and transmittance of a surface that only scatters; null for one that also mirrors or shines. */
function reflectances(finish: Finish): { reflectance: number; transmittance: number } | null {
  if (finish.type === 'matte') return { reflectance: luminous(finish.reflectanceRgb), transmittance: 0 };
  if (finish.type === 'translucent')
    return { reflectance: luminous(finish.reflectanceRgb), transmittance: luminous(finish.transmittanceRgb) };
  return null;
}

const luminous = (rgb: readonly [number, number, number]): number => luminanceFromRec2020(rec2020FromRec709(rgb));
const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

/** What the frame grid sees there, sheen and mirror images included. */
function seenNits(study: FrameStudy, { u, v }: BackgroundCell): number {
  const grid = study.grid();
  const column = Math.min(grid.columns - 1, Math.floor(u * grid.columns));
  const row = Math.min(grid.rows - 1, Math.floor(v * grid.rows));
  return grid.totalNits[row * grid.columns + column];
}

function summarise(cells: readonly BackgroundCell[], nits: Float64Array, lux: Float64Array, study: FrameStudy) {
  const [brightest, darkest] = [most(nits), least(nits)];
  const mean = (values: Float64Array): number => sum(values) / values.length;
  const hot = cells.filter((_, i) => nits[i] >= nits[brightest] * 2 ** -HOT_STOPS);
  return {
    meanNits: mean(nits),
    meanLux: mean(lux),
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
function fitGradient(cells: readonly BackgroundCell[], nits: Float64Array, aspect: number) {
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
