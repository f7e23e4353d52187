import type { SheetPoint } from './projection.ts';
import type { SheetView } from './sheetScale.ts';

/** Size of the window that the sheet is seen through, CSS pixels. */
export interface WindowSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

export type PxPoint = readonly [x: number, y: number];

export const toPx = ([u, v]: SheetPoint, view: SheetView, size: WindowSize): PxPoint => [
  (u - view.centre[0]) * view.pxPerM + size.widthPx / 2,
  (v - view.centre[1]) * view.pxPerM + size.heightPx / 2,
];

/** The place of the sheet under a pixel of the window. */
export const fromPx = ([x, y]: PxPoint, view: SheetView, size: WindowSize): SheetPoint => [
  (x - size.widthPx / 2) / view.pxPerM + view.centre[0],
  (y - size.heightPx / 2) / view.pxPerM + view.centre[1],
];

/** For the `points` attribute of an SVG polygon, to a tenth of a pixel. */
export const pointsAttribute = (points: readonly SheetPoint[], view: SheetView, size: WindowSize): string =>
  points
    .map((p) =>
      toPx(p, view, size)
        .map((v) => v.toFixed(1))
        .join(','),
    )
    .join(' ');
