import { luminanceFromRec2020, rec2020FromRec709 } from '../../core/color/spaces.ts';
import type { Finish } from '../../materials/finish.ts';
import { meanReflectanceRgb } from '../../materials/finishPattern.ts';
import type { FrameStudy, SeenCell, SurfaceLight } from '../study.ts';
import { gatherAccurate } from './accurateLux.ts';
import { joinPatches } from './bouncePatch.ts';
import { backResponse } from './gatherSource.ts';

/**
 * Meter-grade light at each place: illuminance by accurate sums, bounce off sheets and set included; luminance
 * (reflectance E + transmittance E behind) / pi for surfaces that only scatter, else what the frame grid sees there.
 *
 * @param use what the places are for, of which each run has one list: their light is then kept for the next run
 */
export function measureCells(study: FrameStudy, cells: readonly SeenCell[], use?: string): SurfaceLight {
  const { input, light } = study;
  const layers = light.layerCount;
  // Near sheets count in full; what comes off the rest of the set is broad.
  const patches = [...study.patches(), ...joinPatches(study.setPatches())];
  const store = use ? study.places(use) : null;
  store?.setPatches(patches);
  const nits = new Float64Array(cells.length);
  const lux = new Float64Array(cells.length);
  const meanLayerLux = new Float64Array(layers);
  const front = new Float64Array(layers);
  const back = new Float64Array(layers);
  cells.forEach((cell, i) => {
    front.fill(0);
    const place = store?.at(i, cell.pointM, cell.normal);
    gatherAccurate(light, patches, cell.pointM, cell.normal, front, { kept: place?.front });
    lux[i] = sum(front);
    front.forEach((value, layer) => {
      meanLayerLux[layer] += value / cells.length;
    });
    const scatters = scatterOf(input.set.surfaces[cell.surfaceIndex].finish);
    if (!scatters || light.sourceOfSurface[cell.surfaceIndex] >= 0) {
      nits[i] = gridNits(study, cell);
      return;
    }
    back.fill(0);
    if (scatters.transmittance > 0)
      gatherAccurate(light, patches, cell.pointM, cell.normal, back, {
        response: backResponse,
        kept: place && store?.backOf(place),
      });
    nits[i] = (scatters.reflectance * lux[i] + scatters.transmittance * sum(back)) / Math.PI;
  });
  const mean = (values: Float64Array): number => (values.length > 0 ? sum(values) / values.length : 0);
  return { nits, lux, meanLayerLux, meanNits: mean(nits), meanLux: mean(lux) };
}

/** Luminous reflectance and transmittance of a surface that only scatters; null for one that also mirrors. */
function scatterOf(finish: Finish): { reflectance: number; transmittance: number } | null {
  if (finish.type === 'matte') return { reflectance: luminous(meanReflectanceRgb(finish)), transmittance: 0 };
  if (finish.type === 'translucent')
    return { reflectance: luminous(meanReflectanceRgb(finish)), transmittance: luminous(finish.transmittanceRgb) };
  return null;
}

/** What the frame grid sees at a place, sheen and mirror images included, cd/m2. */
export function gridNits(study: FrameStudy, { u, v }: Pick<SeenCell, 'u' | 'v'>): number {
  const grid = study.grid();
  const column = Math.min(grid.columns - 1, Math.max(0, Math.floor(u * grid.columns)));
  const row = Math.min(grid.rows - 1, Math.max(0, Math.floor(v * grid.rows)));
  return grid.totalNits[row * grid.columns + column];
}

const luminous = (rgb: readonly [number, number, number]): number => luminanceFromRec2020(rec2020FromRec709(rgb));
const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);
