import { memo } from 'react';
import type { WindowSize } from './sheetPx.ts';
import { gridSteps, type SheetView } from './sheetScale.ts';

interface SheetGridProps {
  readonly view: SheetView;
  readonly size: WindowSize;
}

/** Metric paper: 10 cm, 50 cm or 1 m by zoom, and the two axes through the origin under the hero. */
export const SheetGrid = memo(function SheetGrid({ view, size }: SheetGridProps) {
  const { fineM, coarseM } = gridSteps(view.pxPerM);
  return (
    <g className="kg-grid">
      <path d={gridPath(view, size, fineM)} data-step="fine" />
      <path d={gridPath(view, size, coarseM)} data-step="coarse" />
    </g>
  );
});

function gridPath(view: SheetView, { widthPx, heightPx }: WindowSize, stepM: number): string {
  const lines: string[] = [];
  const [u0, v0] = [view.centre[0] - widthPx / 2 / view.pxPerM, view.centre[1] - heightPx / 2 / view.pxPerM];
  for (let i = Math.ceil(u0 / stepM); (i * stepM - u0) * view.pxPerM < widthPx; i++) {
    lines.push(`M${crisp((i * stepM - u0) * view.pxPerM)} 0V${heightPx}`);
  }
  for (let i = Math.ceil(v0 / stepM); (i * stepM - v0) * view.pxPerM < heightPx; i++) {
    lines.push(`M0 ${crisp((i * stepM - v0) * view.pxPerM)}H${widthPx}`);
  }
  return lines.join('');
}

/** In the middle of a pixel, so that a one-pixel line is one pixel wide. */
const crisp = (px: number): number => Math.floor(px) + 0.5;
