import type { FrameScene } from '../../scene/setModel.ts';
import { documentStore, selectRecord, setDragging } from '../session/index.ts';
import { type Hold, holdRecord, moveHeld, type SnapGuide, snapGuides } from './moveRecord.ts';
import type { Projection } from './projection.ts';
import type { PxPoint } from './sheetPx.ts';
import { zoomAbout } from './sheetScale.ts';
import type { SheetControl } from './useSheetView.ts';

/** A press becomes a drag when it has moved this far. */
const DRAG_STARTS_PX = 3;
const SNAP_PX = 7;
const WHEEL_ZOOM_PER_PX = 0.0016;
/** A pinch on a touchpad arrives as a wheel with Ctrl and small steps. */
const PINCH_WHEEL_FACTOR = 4;
/** A wheel that counts in lines or pages says so; these are their usual heights. */
const WHEEL_UNIT_PX = [1, 16, 400];

/** What is in the hand right now. */
export interface Held {
  readonly hold: Hold;
  readonly snapped: readonly SnapGuide[];
  readonly pointerPx: PxPoint;
}

export interface SheetSurroundings {
  readonly sheet: SheetControl;
  readonly scene: FrameScene;
  readonly projection: Projection;
  readonly frameId: string;
}

type Gesture =
  | { readonly kind: 'press'; readonly hold: Hold | null; readonly startPx: PxPoint }
  | MoveGesture
  | { readonly kind: 'pan'; readonly lastPx: PxPoint }
  | { readonly kind: 'pinch' };

interface MoveGesture {
  readonly kind: 'move';
  readonly hold: Hold;
  readonly startPx: PxPoint;
}

/**
 * A hand on the sheet: press selects, drag moves what was pressed or else the sheet, wheel and pinch zoom about the
 * pointer, double click fits. Shift keeps to one axis, Alt lets go of snapping, Esc puts back.
 *
 * @param look gives what is on the sheet at the moment of asking
 * @param onHeld hears what is in the hand, null when it lets go
 * @returns a function that puts the hand on an element; that one returns another that takes it off
 */
export function createSheetHand(look: () => SheetSurroundings, onHeld: (held: Held | null) => void) {
  let gesture: Gesture | null = null;
  const pointers = new Map<number, PxPoint>();

  const endMove = (keep: boolean) => {
    if (gesture?.kind !== 'move') return;
    gesture = null;
    if (keep) documentStore.commit();
    else documentStore.cancel();
    setDragging(false);
    onHeld(null);
  };

  const beginDrag = (press: Gesture & { kind: 'press' }): Gesture | null => {
    const { hold, startPx } = press;
    if (!hold) return { kind: 'pan', lastPx: startPx };
    if (!documentStore.begin(labelOf(hold, look().scene)).ok) return null;
    setDragging(true);
    return { kind: 'move', hold, startPx };
  };

  const moveTo = (now: MoveGesture, at: PxPoint, keys: { shiftKey: boolean; altKey: boolean }) => {
    const { sheet, scene, projection, frameId } = look();
    const { pxPerM } = sheet.current();
    const offset = [(at[0] - now.startPx[0]) / pxPerM, (at[1] - now.startPx[1]) / pxPerM] as const;
    const move = moveHeld(now.hold, offset, frameId, {
      projection,
      constrain: keys.shiftKey,
      snap: keys.altKey ? null : { guides: snapGuides(scene, now.hold, projection), withinM: SNAP_PX / pxPerM },
    });
    // A move that the document refuses (too far away) leaves the thing where it was last good.
    documentStore.update(move.changes);
    onHeld({ hold: now.hold, snapped: move.snapped, pointerPx: at });
  };

  const pan = (from: PxPoint, to: PxPoint) => {
    const { current, setView } = look().sheet;
    const { centre, pxPerM } = current();
    setView({ pxPerM, centre: [centre[0] - (to[0] - from[0]) / pxPerM, centre[1] - (to[1] - from[1]) / pxPerM] });
  };

  const pinch = (before: PxPoint, at: PxPoint, other: PxPoint, element: Element) => {
    const spread = (p: PxPoint): number => Math.max(Math.hypot(p[0] - other[0], p[1] - other[1]), 1);
    const middle = (p: PxPoint): PxPoint => [(p[0] + other[0]) / 2, (p[1] + other[1]) / 2];
    const [from, to] = [middle(before), middle(at)];
    const { current, setView } = look().sheet;
    const { centre, pxPerM } = zoomAbout(current(), spread(at) / spread(before), fromMiddle(to, element));
    setView({ pxPerM, centre: [centre[0] - (to[0] - from[0]) / pxPerM, centre[1] - (to[1] - from[1]) / pxPerM] });
  };

  return function putOn(element: SVGSVGElement): () => void {
    const onDown = (event: PointerEvent) => {
      if (event.button !== 0) return;
      const at = positionOn(element, event);
      pointers.set(event.pointerId, at);
      element.setPointerCapture(event.pointerId);
      if (pointers.size === 2 && gesture?.kind !== 'move') gesture = { kind: 'pinch' };
      if (pointers.size > 1) return;
      const hold = holdUnder(event.target, look().scene);
      if (hold) selectRecord(hold.recordId);
      gesture = { kind: 'press', hold, startPx: at };
    };
    const onMove = (event: PointerEvent) => {
      const before = pointers.get(event.pointerId);
      if (!before) return;
      const at = positionOn(element, event);
      pointers.set(event.pointerId, at);
      if (gesture?.kind === 'press' && distancePx(at, gesture.startPx) >= DRAG_STARTS_PX) gesture = beginDrag(gesture);
      if (gesture?.kind === 'pan') {
        pan(gesture.lastPx, at);
        gesture = { kind: 'pan', lastPx: at };
      } else if (gesture?.kind === 'pinch') {
        const other = [...pointers].find(([id]) => id !== event.pointerId);
        if (other) pinch(before, at, other[1], element);
      } else if (gesture?.kind === 'move') {
        moveTo(gesture, at, event);
      }
    };
    const onUp = (event: PointerEvent) => {
      if (!pointers.delete(event.pointerId)) return;
      if (gesture?.kind === 'move') {
        if (pointers.size === 0) endMove(true);
        return;
      }
      // A press on bare paper that did not become a drag lets go of the selection.
      if (gesture?.kind === 'press' && !gesture.hold) selectRecord(null);
      gesture = null;
    };
    const onCancel = (event: PointerEvent) => {
      if (!pointers.delete(event.pointerId)) return;
      endMove(false);
      gesture = null;
    };
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const { current, setView } = look().sheet;
      const stepPx = event.deltaY * (WHEEL_UNIT_PX[event.deltaMode] ?? 1) * (event.ctrlKey ? PINCH_WHEEL_FACTOR : 1);
      setView(
        zoomAbout(current(), Math.exp(-stepPx * WHEEL_ZOOM_PER_PX), fromMiddle(positionOn(element, event), element)),
      );
    };
    const onDouble = (event: MouseEvent) => {
      if (!holdUnder(event.target, look().scene)) look().sheet.fit();
    };
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || gesture?.kind !== 'move') return;
      event.preventDefault();
      event.stopImmediatePropagation();
      endMove(false);
    };
    element.addEventListener('pointerdown', onDown);
    element.addEventListener('pointermove', onMove);
    element.addEventListener('pointerup', onUp);
    element.addEventListener('pointercancel', onCancel);
    element.addEventListener('dblclick', onDouble);
    // Not passive: the page must not scroll while the sheet zooms.
    element.addEventListener('wheel', onWheel, { passive: false });
    window.addEventListener('keydown', onKey, { capture: true });
    return () => {
      endMove(false);
      element.removeEventListener('pointerdown', onDown);
      element.removeEventListener('pointermove', onMove);
      element.removeEventListener('pointerup', onUp);
      element.removeEventListener('pointercancel', onCancel);
      element.removeEventListener('dblclick', onDouble);
      element.removeEventListener('wheel', onWheel);
      window.removeEventListener('keydown', onKey, { capture: true });
    };
  };
}

function positionOn(element: Element, event: MouseEvent): PxPoint {
  const { left, top } = element.getBoundingClientRect();
  return [event.clientX - left, event.clientY - top];
}

function fromMiddle([x, y]: PxPoint, element: Element): PxPoint {
  const { width, height } = element.getBoundingClientRect();
  return [x - width / 2, y - height / 2];
}

const distancePx = (a: PxPoint, b: PxPoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** What the pressed element stands for: see `HitArea` and `LookPoint`. */
function holdUnder(target: EventTarget | null, scene: FrameScene): Hold | null {
  if (!(target instanceof SVGElement)) return null;
  const { recordId, aimOf } = target.dataset;
  if (aimOf !== undefined) return holdRecord(scene, aimOf, 'aim');
  return recordId === undefined ? null : holdRecord(scene, recordId, 'body');
}

function labelOf(hold: Hold, scene: FrameScene): string {
  const records = [...scene.fixtures, ...scene.grip, ...scene.pieces];
  const name = records.find(({ id }) => id === hold.recordId)?.name ?? 'camera';
  return hold.part === 'aim' ? `Aim ${name}` : `Move ${name}`;
}
