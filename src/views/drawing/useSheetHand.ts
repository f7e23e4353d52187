import { type RefObject, useEffect, useRef, useState } from 'react';
import { createSheetHand, type Held, type SheetSurroundings } from './sheetHand.ts';

/** Puts a hand on the sheet for as long as it is shown, and says what it holds. */
export function useSheetHand(ref: RefObject<SVGSVGElement | null>, surroundings: SheetSurroundings): Held | null {
  const [held, setHeld] = useState<Held | null>(null);
  const latest = useRef(surroundings);
  useEffect(() => {
    latest.current = surroundings;
  });
  useEffect(() => {
    const element = ref.current;
    return element ? createSheetHand(() => latest.current, setHeld)(element) : undefined;
  }, [ref]);
  return held;
}
