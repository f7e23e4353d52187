import { type Camera, type Object3D, Raycaster, Vector2 } from 'three';
import type { Vec3 } from '../../core/vec3.ts';
import { isHeldStill, sayLocked } from '../arrange/index.ts';
import { type Hold, holdRecord, holdTogether, moveHeld, snapGuides } from '../drawing/moveRecord.ts';
import { documentStore, getFrameScene, selectionOf, sessionStore, setDragging } from '../session/index.ts';
import { heightBeside, meetLevel, type PointerRay } from './stageMove.ts';

/** What moves: over the floor, or up and down; `aim` is the point that it looks at, over the floor at its height. */
export type StageMove = 'level' | 'height' | 'aim';

const SNAP_M = 0.012;

interface Eye {
  readonly camera: Camera;
  readonly element: HTMLElement;
  /** Told to hold still while something is in the hand. */
  readonly controls: { enabled: boolean } | null;
}

/**
 * Takes hold of a record with the pointer that is down now and moves it until that is let go: over the floor at its
 * height, or straight up and down. Shift keeps to one axis, Alt lets go of snapping, Esc puts back.
 */
export function takeHold(eye: Eye, recordId: string, move: StageMove, event: PointerEvent): void {
  const scene = getFrameScene();
  const selected = selectionOf(sessionStore.getState());
  const hold = move === 'aim' ? holdRecord(scene, recordId, 'aim') : holdTogether(scene, recordId, selected);
  const start = rayUnder(eye, event);
  if (!hold) return;
  const from = reach(move, start, hold);
  if (!from) return;
  let begun = false;
  const { frameId } = sessionStore.getState();
  if (eye.controls) eye.controls.enabled = false;
  eye.element.setPointerCapture(event.pointerId);

  const onMove = (next: PointerEvent) => {
    if (next.pointerId !== event.pointerId) return;
    const to = reach(move, rayUnder(eye, next), hold);
    if (!to) return;
    if (!begun) {
      if (Math.hypot(next.clientX - event.clientX, next.clientY - event.clientY) < 3) return;
      const still = [recordId, ...(hold.others ?? []).map((other) => other.recordId)].filter(isHeldStill);
      if (still.length > 0) {
        sayLocked(still);
        return end(false);
      }
      if (!documentStore.begin(`${move === 'aim' ? 'Aim' : 'Move'} ${nameOf(recordId)}`).ok) return end(false);
      begun = true;
      setDragging(true);
    }
    const projection = move === 'height' ? 'front' : 'plan';
    const offset = move !== 'height' ? ([to[0] - from[0], to[2] - from[2]] as const) : ([0, from[1] - to[1]] as const);
    const guides = snapGuides(scene, hold, projection);
    documentStore.update(
      moveHeld(hold, offset, frameId, {
        projection,
        constrain: next.shiftKey,
        snap: next.altKey || move === 'height' ? null : { guides, withinM: SNAP_M },
      }).changes,
    );
  };
  const end = (keep: boolean) => {
    eye.element.removeEventListener('pointermove', onMove);
    eye.element.removeEventListener('pointerup', onUp);
    eye.element.removeEventListener('pointercancel', onCancel);
    window.removeEventListener('keydown', onKey, { capture: true });
    if (eye.controls) eye.controls.enabled = true;
    if (!begun) return;
    if (keep) documentStore.commit();
    else documentStore.cancel();
    setDragging(false);
  };
  const onUp = (next: PointerEvent) => {
    if (next.pointerId === event.pointerId) end(true);
  };
  const onCancel = (next: PointerEvent) => {
    if (next.pointerId === event.pointerId) end(false);
  };
  const onKey = (key: KeyboardEvent) => {
    if (key.key !== 'Escape' || !begun) return;
    key.preventDefault();
    key.stopImmediatePropagation();
    end(false);
  };
  eye.element.addEventListener('pointermove', onMove);
  eye.element.addEventListener('pointerup', onUp);
  eye.element.addEventListener('pointercancel', onCancel);
  window.addEventListener('keydown', onKey, { capture: true });
}

/** Where the pointer has the thing: a point of its level plane, or of the upright through it. */
function reach(move: StageMove, ray: PointerRay, hold: Hold): Vec3 | null {
  const { positionM, aimM } = hold;
  if (move === 'aim') return meetLevel(ray, aimM?.[1] ?? 0);
  if (move === 'level') return meetLevel(ray, positionM[1]);
  const heightM = heightBeside(ray, positionM);
  return heightM === null ? null : [positionM[0], heightM, positionM[2]];
}

const raycaster = new Raycaster();
const pointer = new Vector2();

function rayUnder({ camera, element }: Eye, event: PointerEvent): PointerRay {
  const { left, top, width, height } = element.getBoundingClientRect();
  pointer.set(((event.clientX - left) / width) * 2 - 1, 1 - ((event.clientY - top) / height) * 2);
  raycaster.setFromCamera(pointer, camera);
  const { origin, direction } = raycaster.ray;
  return { originM: [origin.x, origin.y, origin.z], direction: [direction.x, direction.y, direction.z] };
}

function nameOf(recordId: string): string {
  const { fixtures, grip, pieces } = getFrameScene();
  return [...fixtures, ...grip, ...pieces].find(({ id }) => id === recordId)?.name ?? 'camera';
}

/** The record that a mesh of the stage belongs to. */
export const recordOf = (object: Object3D): string | null =>
  typeof object.userData.recordId === 'string' ? object.userData.recordId : null;
