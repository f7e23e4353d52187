import { type RefObject, useEffect, useRef, useState } from 'react';
import type { Held, Marquee } from './sheetGestures.ts';
import { createSheetHand, type SheetSurroundings } from './sheetHand.ts';

export interface HandState {
  readonly held: Held | null;
  readonly marquee: Marquee | null;
}

/** Puts a hand on the sheet for as long as it is shown, and says what it holds. */
export function useSheetHand(ref: RefObject<SVGSVGElement | null>, surroundings: SheetSurroundings): HandState {
  const [held, setHeld] = useState<Held | null>(null);
  const [marquee, setMarquee] = useState<Marquee | null>(null);
  const latest = useRef(surroundings);
  useEffect(() => {
    latest.current = surroundings;
  });
  useEffect(() => {
    const element = ref.current;
    return element
      ? createSheetHand(() => latest.current, { onHeld: setHeld, onMarquee: setMarquee })(element)
      : undefined;
  }, [ref]);
  return { held, marquee };
}
