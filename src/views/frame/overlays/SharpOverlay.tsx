import { useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { useCameraView, useFrameScene, worldStore } from '../../session/index.ts';
import { getFrameQuery } from '../frameQuery.ts';
import { useIsToolOpen } from '../tools/frameToolsStore.ts';
import { createDepthGrid, type DepthGrid, fillDepthGrid, paintSharpZone } from './sharpZone.ts';
import { useCircleDivisor } from './useCircleDivisor.ts';

const GRID_COLUMNS = 240;
/** Rows are worked off in slices, so that the page keeps answering. */
const SLICE_MS = 6;

/** What is not sharp, veiled, from the depth of the set itself: it follows focus, stop and everything that moves. */
export function SharpOverlay({ widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number }) {
  const open = useIsToolOpen('sharp');
  if (!open || widthPx === 0 || heightPx === 0) return null;
  return <SharpVeil widthPx={widthPx} heightPx={heightPx} />;
}

function SharpVeil({ widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number }) {
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const gridRef = useRef<DepthGrid | null>(null);
  const world = useStore(worldStore, (state) => state.world);
  const view = useCameraView();
  const { camera } = useFrameScene();
  const divisor = useCircleDivisor();
  const paintRef = useRef(() => {});
  paintRef.current = () => {
    const canvas = canvasRef.current;
    const context = canvas?.getContext('2d');
    if (!canvas || !context || !gridRef.current) return;
    canvas.width = widthPx;
    canvas.height = heightPx;
    const image = context.createImageData(widthPx, heightPx);
    paintSharpZone(gridRef.current, camera, divisor, image);
    context.putImageData(image, 0, 0);
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: `world` stands for what the query answers from.
  useEffect(() => {
    const query = getFrameQuery();
    if (query === null) return;
    const rows = Math.max(1, Math.round((GRID_COLUMNS * view.tanHalfHeight) / view.tanHalfWidth));
    const grid = createDepthGrid(GRID_COLUMNS, rows);
    let row = 0;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const work = () => {
      const until = performance.now() + SLICE_MS;
      do {
        fillDepthGrid(query, view, grid, [row, row + 1]);
        row += 1;
      } while (row < rows && performance.now() < until);
      if (row < rows) {
        timer = setTimeout(work);
        return;
      }
      gridRef.current = grid;
      paintRef.current();
    };
    timer = setTimeout(work);
    return () => clearTimeout(timer);
  }, [world, view]);

  // Stop, limit and size need no new depth.
  // biome-ignore lint/correctness/useExhaustiveDependencies: these are what `paintRef` reads.
  useEffect(() => paintRef.current(), [camera, divisor, widthPx, heightPx]);

  return <canvas ref={canvasRef} className="kg-overlay" data-testid="sharp-zone" />;
}
