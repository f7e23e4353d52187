import type { SheetPoint } from './projection.ts';
import type { SheetBounds } from './sheet.ts';

/** Where the sheet lies under its window: the point at the middle of the window, and how large a metre is drawn. */
export interface SheetView {
  readonly centre: SheetPoint;
  readonly pxPerM: number;
}

/** CSS fixes its pixel at 1/96 inch (CSS Values and Units Level 3, section 5.2); the stated scale counts on it. */
const PX_PER_PAPER_M = 96 / 0.0254;
/**
 * Scales that a fit comes to rest at: those of ISO 5455:1979, Technical drawings - Scales (1, 2, 5, 10, 20, 50, 100, 200;
 * from memory), and easy ones between.
 */
const STANDARD_SCALES = [1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200] as const;
const SMALLEST_SCALE = 250;

export const scaleDenominator = (pxPerM: number): number => PX_PER_PAPER_M / pxPerM;
export const pxPerMFromScale = (denominator: number): number => PX_PER_PAPER_M / denominator;
export const LIMITS_PX_PER_M = { min: pxPerMFromScale(SMALLEST_SCALE), max: pxPerMFromScale(1) } as const;

/** '1:20', or '1:17' where the zoom lies between the usual scales. */
export function formatScale(pxPerM: number): string {
  const denominator = scaleDenominator(pxPerM);
  return `1:${denominator < 10 ? Number(denominator.toFixed(1)) : Math.round(denominator)}`;
}

/** The largest usual scale at which everything fits, with a margin for names and dimensions. */
export function fitBounds(bounds: SheetBounds, widthPx: number, heightPx: number, marginPx: number): SheetView {
  const widthM = Math.max(bounds.max[0] - bounds.min[0], 0.05);
  const heightM = Math.max(bounds.max[1] - bounds.min[1], 0.05);
  const fits = Math.min((widthPx - 2 * marginPx) / widthM, (heightPx - 2 * marginPx) / heightM);
  const centre: SheetPoint = [(bounds.min[0] + bounds.max[0]) / 2, (bounds.min[1] + bounds.max[1]) / 2];
  const standard = STANDARD_SCALES.find((denominator) => pxPerMFromScale(denominator) <= fits);
  return { centre, pxPerM: standard ? pxPerMFromScale(standard) : clampScale(fits) };
}

/** Zooms by a factor and keeps the point under the pointer where it is. `atPx` counts from the middle of the window. */
export function zoomAbout(view: SheetView, factor: number, atPx: readonly [number, number]): SheetView {
  const pxPerM = clampScale(view.pxPerM * factor);
  const shift = 1 / view.pxPerM - 1 / pxPerM;
  return { pxPerM, centre: [view.centre[0] + atPx[0] * shift, view.centre[1] + atPx[1] * shift] };
}

/** Steps of the grid: the finest that stays readable, and the heavier one over it. */
export function gridSteps(pxPerM: number): { readonly fineM: number; readonly coarseM: number } {
  if (pxPerM >= 180) return { fineM: 0.1, coarseM: 0.5 };
  if (pxPerM >= 60) return { fineM: 0.5, coarseM: 1 };
  return { fineM: 1, coarseM: 5 };
}

/** A round length for the scale bar, near the wanted width on screen. */
export function scaleBarM(pxPerM: number, wantedPx: number): number {
  const lengths = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10];
  return lengths.filter((m) => m * pxPerM <= wantedPx).pop() ?? lengths[0];
}

const clampScale = (pxPerM: number): number => Math.min(LIMITS_PX_PER_M.max, Math.max(LIMITS_PX_PER_M.min, pxPerM));
