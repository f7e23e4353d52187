import type { FrameScene, SetModel } from '../../scene/setModel.ts';
import { isHeldStill, layTape, pickRecord, pickRecords, sayLocked, tapePoints, tapeStore } from '../arrange/index.ts';
import { documentStore, selectionOf, sessionStore, setDragging, updateRecord } from '../session/index.ts';
import { type Leaf, leafOpeningAt } from './barnDoorHand.ts';
import { type Hold, holdRecord, holdTogether, moveHeld, snapCentre, snapGuides } from './moveRecord.ts';
import { type Projection, projectToSheet, type SheetPoint, worldPointFromSheet } from './projection.ts';
import type { SheetItem } from './sheet.ts';
import type { Gesture, Held, LeafGesture, Marquee, MoveGesture, PressGesture } from './sheetGestures.ts';
import { fromPx, type PxPoint, type WindowSize } from './sheetPx.ts';
import { zoomAbout } from './sheetScale.ts';
import type { SheetControl } from './useSheetView.ts';

/** A press becomes a drag when it has moved this far. */
const DRAG_STARTS_PX = 3;
const SNAP_PX = 7;
/** The end of a tape jumps to a named place this near. */
const TAPE_REACH_PX = 14;
const WHEEL_ZOOM_PER_PX = 0.0016;
/** A pinch on a touchpad arrives as a wheel with Ctrl and small steps. */
const PINCH_WHEEL_FACTOR = 4;
/** A wheel that counts in lines or pages says so; these are their usual heights. */
const WHEEL_UNIT_PX = [1, 16, 400];

export interface SheetSurroundings {
  readonly sheet: SheetControl;
  readonly scene: FrameScene;
  readonly set: SetModel;
  readonly items: readonly SheetItem[];
  readonly projection: Projection;
  readonly frameId: string;
}

/** Who hears of what the hand does. */
export interface SheetHandEars {
  /** What is in the hand; null when it lets go. */
  onHeld(held: Held | null): void;
  onMarquee(marquee: Marquee | null): void;
}

/**
 * A hand on the sheet: press selects, with Shift to what is selected, with Alt out of its group; drag moves what is
 * selected, a leaf of the barn doors, or else the sheet; Shift and drag on bare paper draws a box round things; wheel and
 * pinch zoom about the pointer, double click fits. While something moves, Shift keeps to one axis, Alt lets go of
 * snapping, Esc puts back. With the tape out, presses and drags measure.
 *
 * @param look gives what is on the sheet at the moment of asking
 * @returns a function that puts the hand on an element; that one returns another that takes it off
 */
export function createSheetHand(look: () => SheetSurroundings, ears: SheetHandEars) {
  let gesture: Gesture | null = null;
  const pointers = new Map<number, PxPoint>();

  const endMove = (keep: boolean) => {
    if (gesture?.kind === 'marquee') ears.onMarquee(null);
    if (gesture?.kind !== 'move' && gesture?.kind !== 'leaf') return;
    gesture = null;
    if (keep) documentStore.commit();
    else documentStore.cancel();
    setDragging(false);
    ears.onHeld(null);
  };

  const beginDrag = ({ hold, leaf, startPx, adds }: PressGesture): Gesture | null => {
    const { scene } = look();
    if (!hold) return adds ? { kind: 'marquee', startPx } : { kind: 'pan', lastPx: startPx };
    const selected = selectionOf(sessionStore.getState());
    const together = hold.part === 'body' && !leaf ? (holdTogether(scene, hold.recordId, selected) ?? hold) : hold;
    const still = [together, ...(together.others ?? [])].map(({ recordId }) => recordId).filter(isHeldStill);
    if (still.length > 0) {
      sayLocked(still);
      return null;
    }
    if (!documentStore.begin(labelOf(together, leaf !== null, scene)).ok) return null;
    setDragging(true);
    return leaf ? { kind: 'leaf', hold, leaf: leaf.leaf } : { kind: 'move', hold: together, startPx };
  };

  const moveTo = (now: MoveGesture, at: PxPoint, keys: { shiftKey: boolean; altKey: boolean }) => {
    const { sheet, scene, projection, frameId } = look();
    const { pxPerM } = sheet.current();
    const offset = [(at[0] - now.startPx[0]) / pxPerM, (at[1] - now.startPx[1]) / pxPerM] as const;
    const move = moveHeld(now.hold, offset, frameId, {
      projection,
      constrain: keys.shiftKey,
      snap: keys.altKey
        ? null
        : {
            guides: snapGuides(scene, now.hold, projection),
            withinM: SNAP_PX / pxPerM,
            centre: snapCentre(scene, now.hold, projection),
          },
    });
    // A move that the document refuses (too far away) leaves the thing where it was last good.
    documentStore.update(move.changes);
    ears.onHeld({ hold: now.hold, snapped: move.snapped, pointerPx: at });
  };

  const swingTo = ({ hold, leaf }: LeafGesture, at: PxPoint, size: WindowSize) => {
    const { sheet, scene, set, projection } = look();
    const fixture = scene.fixtures.find(({ id }) => id === hold.recordId);
    const openDeg =
      fixture && leafOpeningAt(fixture, set.surfaces, projection, leaf, fromPx(at, sheet.current(), size));
    if (typeof openDeg !== 'number') return;
    documentStore.update([updateRecord('fixtures', hold.recordId, { barnDoors: { [leaf]: openDeg } })]);
    ears.onHeld({ hold, snapped: [], pointerPx: at, leaf: { leaf, openDeg } });
  };

  const tapeEndAt = (at: PxPoint, size: WindowSize) => {
    const { sheet, scene, set, projection } = look();
    const view = sheet.current();
    const place = fromPx(at, view, size);
    const offPx = (p: SheetPoint) => Math.hypot(p[0] - place[0], p[1] - place[1]) * view.pxPerM;
    const named = tapePoints(scene, set)
      .map((end) => ({ end, px: offPx(projectToSheet(projection, end.pointM)) }))
      .filter(({ px }) => px <= TAPE_REACH_PX)
      .sort((a, b) => a.px - b.px)[0];
    return named?.end ?? { pointM: worldPointFromSheet(projection, place, scene.subject.meterPointM), name: null };
  };

  /** Things whose middle lies in the box; large ones that run out of it are not meant. */
  const selectIn = ({ startPx }: { startPx: PxPoint }, at: PxPoint, size: WindowSize) => {
    const { sheet, items } = look();
    const [a, b] = [fromPx(startPx, sheet.current(), size), fromPx(at, sheet.current(), size)];
    const inside = ([u, v]: SheetPoint) =>
      u >= Math.min(a[0], b[0]) && u <= Math.max(a[0], b[0]) && v >= Math.min(a[1], b[1]) && v <= Math.max(a[1], b[1]);
    const found = items.filter(
      (item) => item.collection !== null && (item.heldInside ? inside(item.anchor) : item.hull.every(inside)),
    );
    pickRecords(
      found.map(({ recordId }) => recordId),
      true,
    );
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
      if (tapeStore.getState().out) {
        layTape(tapeEndAt(at, sizeOf(element)));
        gesture = { kind: 'tape' };
        return;
      }
      const { hold, leaf } = holdUnder(event.target, look().scene);
      const wasSelected = hold !== null && selectionOf(sessionStore.getState()).includes(hold.recordId);
      if (hold && !wasSelected) pickRecord(hold.recordId, { add: event.shiftKey, alone: event.altKey });
      gesture = { kind: 'press', hold, leaf, startPx: at, adds: event.shiftKey, wasSelected };
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
      } else if (gesture?.kind === 'marquee') ears.onMarquee({ fromPx: gesture.startPx, toPx: at });
      else if (gesture?.kind === 'tape') dragTape(at);
      else if (gesture?.kind === 'leaf') swingTo(gesture, at, sizeOf(element));
      else if (gesture?.kind === 'move') moveTo(gesture, at, event);
    };
    const dragTape = (at: PxPoint) => {
      const { from } = tapeStore.getState();
      const end = tapeEndAt(at, sizeOf(element));
      if (from && distanceM(from.pointM, end.pointM) > 0.001) tapeStore.setState({ to: end });
    };
    const onUp = (event: PointerEvent) => {
      if (!pointers.delete(event.pointerId)) return;
      if (gesture?.kind === 'move' || gesture?.kind === 'leaf') {
        if (pointers.size === 0) endMove(true);
        return;
      }
      if (gesture?.kind === 'marquee') {
        selectIn(gesture, positionOn(element, event), sizeOf(element));
        ears.onMarquee(null);
      }
      if (gesture?.kind === 'press') endPress(gesture, event);
      gesture = null;
    };
    /** A press that did not become a drag: on bare paper it lets go; on what was selected it takes that out, or alone. */
    const endPress = ({ hold, adds, wasSelected }: PressGesture, { altKey }: PointerEvent) => {
      if (!hold && !adds) pickRecord(null);
      else if (hold && wasSelected && hold.part === 'body') pickRecord(hold.recordId, { add: adds, alone: altKey });
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
      if (!holdUnder(event.target, look().scene).hold && !tapeStore.getState().out) look().sheet.fit();
    };
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || (gesture?.kind !== 'move' && gesture?.kind !== 'leaf')) return;
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

const distanceM = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(...a.map((value, i) => value - (b[i] ?? 0)));

function sizeOf(element: Element): WindowSize {
  const { width, height } = element.getBoundingClientRect();
  return { widthPx: width, heightPx: height };
}

interface Under {
  readonly hold: Hold | null;
  readonly leaf: PressGesture['leaf'];
}

const LEAVES: readonly string[] = ['topDeg', 'bottomDeg', 'leftDeg', 'rightDeg'] satisfies Leaf[];
const isLeaf = (text: string | undefined): text is Leaf => text !== undefined && LEAVES.includes(text);

/** What the pressed element stands for: see `HitArea`, `LookPoint` and `LeafHandles`. */
function holdUnder(target: EventTarget | null, scene: FrameScene): Under {
  if (!(target instanceof SVGElement)) return { hold: null, leaf: null };
  const { recordId, aimOf, leafOf, leaf } = target.dataset;
  if (leafOf !== undefined && isLeaf(leaf)) {
    return { hold: holdRecord(scene, leafOf, 'body'), leaf: { fixtureId: leafOf, leaf } };
  }
  if (aimOf !== undefined) return { hold: holdRecord(scene, aimOf, 'aim'), leaf: null };
  return { hold: recordId === undefined ? null : holdRecord(scene, recordId, 'body'), leaf: null };
}

function labelOf(hold: Hold, isLeaf: boolean, scene: FrameScene): string {
  const records = [...scene.fixtures, ...scene.grip, ...scene.pieces];
  const name = records.find(({ id }) => id === hold.recordId)?.name ?? 'camera';
  if (isLeaf) return `Barn doors of ${name}`;
  if (hold.others) return `Move ${hold.others.length + 1} things`;
  return hold.part === 'aim' ? `Aim ${name}` : `Move ${name}`;
}
