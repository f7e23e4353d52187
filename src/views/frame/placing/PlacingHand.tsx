import { type RefObject, useEffect, useState } from 'react';
import { isHeldStill, sayLocked } from '../../arrange/index.ts';
import { formatBearing, formatM, placementOf } from '../../drawing/placement.ts';
import { documentStore, getFrameScene, selectRecord, setDragging } from '../../session/index.ts';
import { changesForGrip, type FrameGrip, gripInFrame } from './frameGrip.ts';
import './placing.css';

/** A press becomes a drag when it has moved this far. */
const DRAG_STARTS_PX = 4;

interface Hint {
  readonly xPx: number;
  readonly yPx: number;
  readonly text: string;
}

/**
 * A hand in the picture itself: a highlight or a shadow is dragged to where it should be and its light follows; what is
 * selected is dragged over the table. Esc puts back.
 */
export function PlacingHand({ boxRef }: { readonly boxRef: RefObject<HTMLElement | null> }) {
  const [hint, setHint] = useState<Hint | null>(null);
  useEffect(() => {
    const box = boxRef.current;
    return box ? putHandOn(box, setHint) : undefined;
  }, [boxRef]);
  if (!hint) return null;
  return (
    <p className="kg-placing" style={{ left: hint.xPx + 14, top: hint.yPx + 16 }} data-testid="placing">
      {hint.text}
    </p>
  );
}

function putHandOn(box: HTMLElement, say: (hint: Hint | null) => void): () => void {
  let grip: FrameGrip | null = null;
  let pressedPx: readonly [number, number] | null = null;
  let moving = false;
  let looking = 0;

  const placeOf = (event: MouseEvent) => {
    const { left, top, width, height } = box.getBoundingClientRect();
    const [xPx, yPx] = [event.clientX - left, event.clientY - top];
    return { xPx, yPx, u: xPx / width, v: yPx / height };
  };
  const isOnPicture = (event: Event) =>
    event.target instanceof Element && event.target.closest('.kg-picture-light') !== null;

  const end = (keep: boolean) => {
    if (moving) {
      if (keep) documentStore.commit();
      else documentStore.cancel();
      setDragging(false);
    }
    if (pressedPx) say(null);
    pressedPx = null;
    grip = null;
    moving = false;
  };
  const begin = (): boolean => {
    if (!grip) return false;
    const id = grip.kind === 'piece' ? grip.hold.recordId : grip.fixture.id;
    if (isHeldStill(id)) {
      sayLocked([id]);
      return false;
    }
    if (!documentStore.begin(labelOf(grip)).ok) return false;
    if (grip.kind !== 'piece') selectRecord(grip.fixture.id);
    setDragging(true);
    return true;
  };
  const onDown = (event: PointerEvent) => {
    if (event.button !== 0 || event.shiftKey || !isOnPicture(event)) return;
    const { xPx, yPx, u, v } = placeOf(event);
    grip = gripInFrame(u, v);
    pressedPx = [xPx, yPx];
  };
  const onMove = (event: PointerEvent) => {
    const { xPx, yPx, u, v } = placeOf(event);
    if (!pressedPx) {
      if (looking === 0 && event.buttons === 0) {
        looking = requestAnimationFrame(() => {
          looking = 0;
          const over =
            isOnPicture(event) && documentStore.getState().dragLabel === undefined ? gripInFrame(u, v) : null;
          box.dataset.grip = over?.kind ?? '';
          say(
            over && over.kind !== 'piece' ? { xPx, yPx, text: `drag the ${over.kind} of ${over.fixture.name}` } : null,
          );
        });
      }
      return;
    }
    if (!moving) {
      if (!grip || Math.hypot(xPx - pressedPx[0], yPx - pressedPx[1]) < DRAG_STARTS_PX) return;
      moving = begin();
      if (!moving) {
        end(false);
        return;
      }
      box.setPointerCapture(event.pointerId);
    }
    if (!grip) return;
    const changes = changesForGrip(grip, u, v);
    if (changes.length > 0) documentStore.update(changes);
    say({ xPx, yPx, text: changes.length > 0 ? figuresOf(grip) : 'no place for the light from here' });
  };
  const onUp = () => {
    const moved = moving;
    end(true);
    // The click that follows a drag is not a press on what lies under it.
    if (moved) box.addEventListener('click', swallow, { capture: true, once: true });
    if (moved) setTimeout(() => box.removeEventListener('click', swallow, { capture: true }), 0);
  };
  const onLeave = () => {
    cancelAnimationFrame(looking);
    looking = 0;
    if (!pressedPx) say(null);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || !moving) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    end(false);
  };
  const onCancel = () => end(false);
  box.addEventListener('pointerdown', onDown);
  box.addEventListener('pointermove', onMove);
  box.addEventListener('pointerup', onUp);
  box.addEventListener('pointercancel', onCancel);
  box.addEventListener('pointerleave', onLeave);
  window.addEventListener('keydown', onKey, { capture: true });
  return () => {
    end(false);
    cancelAnimationFrame(looking);
    box.removeEventListener('pointerdown', onDown);
    box.removeEventListener('pointermove', onMove);
    box.removeEventListener('pointerup', onUp);
    box.removeEventListener('pointercancel', onCancel);
    box.removeEventListener('pointerleave', onLeave);
    window.removeEventListener('keydown', onKey, { capture: true });
  };
}

const swallow = (event: Event): void => event.stopPropagation();

function labelOf(grip: FrameGrip): string {
  if (grip.kind === 'piece') return `Move ${grip.name}`;
  return `Place ${grip.fixture.name} by its ${grip.kind}`;
}

function figuresOf(grip: FrameGrip): string {
  const id = grip.kind === 'piece' ? grip.hold.recordId : grip.fixture.id;
  const placement = placementOf(getFrameScene(), id);
  if (!placement) return '';
  const { horizontalDistanceM, heightM, bearingDeg } = placement;
  const round = bearingDeg === null ? '' : `, ${formatBearing(bearingDeg)}`;
  const name = grip.kind === 'piece' ? grip.name : grip.fixture.name;
  return `${name}: ${formatM(horizontalDistanceM)} away, ${formatM(heightM)} up${round}`;
}
