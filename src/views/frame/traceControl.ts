import type { TraceController } from './traceController.ts';

/**
 * The one trace controller of the page. The app connects it when workers are there; until then, and where they are
 * not, the frame shows its quick picture alone.
 */
let controller: TraceController | null = null;
let lastWidthPx = 0;

export const traceControl = {
  connect(next: TraceController): void {
    controller = next;
    if (lastWidthPx > 0) next.setShownWidthPx(lastWidthPx);
  },
  setShownWidthPx(widthPx: number): void {
    lastWidthPx = widthPx;
    controller?.setShownWidthPx(widthPx);
  },
};
