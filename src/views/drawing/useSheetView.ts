import { useCallback, useMemo, useRef, useState } from 'react';
import type { SheetBounds } from './sheet.ts';
import type { WindowSize } from './sheetPx.ts';
import { fitBounds, type SheetView } from './sheetScale.ts';

const FIT_MARGIN_PX = 34;

export interface SheetControl {
  /** As it is drawn. */
  readonly view: SheetView;
  /** As it was last set, also before it is drawn: several moves may fall into one frame. */
  current(): SheetView;
  /** Moves or zooms the sheet by hand; it then stays so for this `key`. */
  setView(next: SheetView): void;
  /** Back to all of it. */
  fit(): void;
}

/**
 * The part of the sheet that is on screen. It fits the drawing until somebody moves it, and remembers how each sheet
 * (`key`) was left. While things are dragged the fit does not follow them; what is added or taken away is fitted anew.
 */
export function useSheetView(bounds: SheetBounds, size: WindowSize, key: string, itemCount: number): SheetControl {
  const [left, setLeft] = useState<Readonly<Record<string, SheetView>>>({});
  const [fitCount, setFitCount] = useState(0);
  const boundsRef = useRef(bounds);
  boundsRef.current = bounds;
  // biome-ignore lint/correctness/useExhaustiveDependencies: fits what is there when the sheet or its window changes
  const fitted = useMemo(
    () => fitBounds(boundsRef.current, size.widthPx, size.heightPx, FIT_MARGIN_PX),
    [key, size, fitCount, itemCount],
  );
  const view = left[key] ?? fitted;
  const latest = useRef(view);
  latest.current = view;
  const setView = useCallback(
    (next: SheetView) => {
      latest.current = next;
      setLeft((old) => ({ ...old, [key]: next }));
    },
    [key],
  );
  const fit = useCallback(() => {
    setLeft(({ [key]: _, ...others }) => others);
    setFitCount((count) => count + 1);
  }, [key]);
  const current = useCallback(() => latest.current, []);
  return { view, current, setView, fit };
}
