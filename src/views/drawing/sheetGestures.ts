import type { Leaf } from './barnDoorHand.ts';
import type { Hold, SnapGuide } from './moveRecord.ts';
import type { PxPoint } from './sheetPx.ts';

/** What is in the hand right now. */
export interface Held {
  readonly hold: Hold;
  readonly snapped: readonly SnapGuide[];
  readonly pointerPx: PxPoint;
  /** The leaf of the barn doors that is held, and how far it is open. */
  readonly leaf?: { readonly leaf: Leaf; readonly openDeg: number };
}

/** A box drawn round things to select them, pixels of the window. */
export interface Marquee {
  readonly fromPx: PxPoint;
  readonly toPx: PxPoint;
}

export type Gesture =
  | PressGesture
  | MoveGesture
  | LeafGesture
  | MarqueeGesture
  | TapeGesture
  | PanGesture
  | PinchGesture;

export interface PressGesture {
  readonly kind: 'press';
  readonly hold: Hold | null;
  readonly leaf: { readonly fixtureId: string; readonly leaf: Leaf } | null;
  readonly startPx: PxPoint;
  /** Shift was down: adds to the selection, and draws a box on bare paper. */
  readonly adds: boolean;
  /** It was selected before the press: a press that does not become a drag then takes it out or alone. */
  readonly wasSelected: boolean;
}
export interface MoveGesture {
  readonly kind: 'move';
  readonly hold: Hold;
  readonly startPx: PxPoint;
}
export interface LeafGesture {
  readonly kind: 'leaf';
  readonly hold: Hold;
  readonly leaf: Leaf;
}
export interface MarqueeGesture {
  readonly kind: 'marquee';
  readonly startPx: PxPoint;
}
interface TapeGesture {
  readonly kind: 'tape';
}
interface PanGesture {
  readonly kind: 'pan';
  readonly lastPx: PxPoint;
}
interface PinchGesture {
  readonly kind: 'pinch';
}
