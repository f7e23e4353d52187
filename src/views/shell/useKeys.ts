import { useEffect } from 'react';
import { add, type Vec3 } from '../../core/vec3.ts';
import { holdRecord } from '../drawing/moveRecord.ts';
import {
  activateFinding,
  documentStore,
  getFrameScene,
  type Services,
  selectRecord,
  sessionStore,
  setDragging,
  toggleSolo,
  updateRecord,
} from '../session/index.ts';
import { openShelf } from '../shelf/index.ts';

const NUDGE_M = 0.01;
const LARGE_NUDGE_M = 0.1;

interface KeyHandlers {
  readonly services: Services;
  openHelp(): void;
}

/** Keys of the whole window. Fields and other controls keep the keys that are theirs. */
export function useKeys({ services, openHelp }: KeyHandlers): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.defaultPrevented) return;
      if (event.ctrlKey || event.metaKey) {
        if (runCommandKey(event, services)) event.preventDefault();
        return;
      }
      if (isTyping(event.target)) return;
      if (runKey(event, openHelp)) event.preventDefault();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [services, openHelp]);
}

function runCommandKey(event: KeyboardEvent, services: Services): boolean {
  const key = event.key.toLowerCase();
  // While somebody types, undo belongs to the field.
  if ((key === 'z' || key === 'y') && isTyping(event.target)) return false;
  if (key === 'z' && !event.shiftKey) documentStore.undo();
  else if (key === 'y' || (key === 'z' && event.shiftKey)) documentStore.redo();
  else if (key === 's') void services.saveSetupFile();
  else if (key === 'o') void services.openSetupFile();
  else return false;
  return true;
}

function runKey(event: KeyboardEvent, openHelp: () => void): boolean {
  if (event.key === '?') {
    openHelp();
    return true;
  }
  if (event.key === 'Escape') return letGo();
  const digit = /^[1-9]$/.test(event.key) ? Number(event.key) : 0;
  if (digit > 0) {
    const frame = documentStore.getState().setup.frames[digit - 1];
    if (frame) sessionStore.setState({ frameId: frame.id, activeFindingId: null });
    return frame !== undefined;
  }
  switch (event.key.toLowerCase()) {
    case 'f':
      sessionStore.setState(({ pictureMode }) => ({ pictureMode: pictureMode === 'stops' ? 'picture' : 'stops' }));
      return true;
    case 'a':
      openShelf('lights');
      return true;
    case 'm':
      return switchSelected();
    case 's': {
      const fixture = selectedFixture();
      if (fixture) toggleSolo(fixture.id);
      return fixture !== undefined;
    }
    default:
      return nudgeSelected(event);
  }
}

/** First lets go of what is held, then of the open finding, then of the selection. */
function letGo(): boolean {
  const session = sessionStore.getState();
  if (documentStore.getState().dragLabel !== undefined) {
    documentStore.cancel();
    setDragging(false);
  } else if (session.activeFindingId !== null) activateFinding(null);
  else if (session.selectedId !== null) selectRecord(null);
  else return false;
  return true;
}

const selectedFixture = () => {
  const { selectedId } = sessionStore.getState();
  return getFrameScene().fixtures.find((fixture) => fixture.id === selectedId);
};

function switchSelected(): boolean {
  const fixture = selectedFixture();
  if (!fixture) return false;
  documentStore.apply(`${fixture.name} ${fixture.on ? 'off' : 'on'}`, [
    updateRecord('fixtures', fixture.id, { on: !fixture.on }),
  ]);
  return true;
}

/** Arrow keys as steps over the table: right and away from the camera side; Alt turns away into up. Null for others. */
export function nudgeFromKey(key: string, alt: boolean, shift: boolean): Vec3 | null {
  const step = shift ? LARGE_NUDGE_M : NUDGE_M;
  switch (key) {
    case 'ArrowRight':
      return [step, 0, 0];
    case 'ArrowLeft':
      return [-step, 0, 0];
    case 'ArrowUp':
      return alt ? [0, step, 0] : [0, 0, -step];
    case 'ArrowDown':
      return alt ? [0, -step, 0] : [0, 0, step];
    default:
      return null;
  }
}

function nudgeSelected(event: KeyboardEvent): boolean {
  const moveM = nudgeFromKey(event.key, event.altKey, event.shiftKey);
  const { selectedId, frameId } = sessionStore.getState();
  if (moveM === null || selectedId === null) return false;
  const hold = holdRecord(getFrameScene(), selectedId, 'body');
  if (!hold) return false;
  const patch = {
    positionM: roundM(add(hold.positionM, moveM)),
    // A sheet of grip keeps its attitude; lights and the camera go on looking at their aim.
    ...(hold.collection === 'grip' && hold.aimM ? { aimM: roundM(add(hold.aimM, moveM)) } : {}),
  };
  const id = hold.collection === 'camera' ? frameId : selectedId;
  documentStore.apply('Nudge', [updateRecord(hold.collection, id, patch)]);
  return true;
}

const roundM = (pointM: Vec3): Vec3 => [
  Number(pointM[0].toFixed(4)) + 0,
  Number(pointM[1].toFixed(4)) + 0,
  Number(pointM[2].toFixed(4)) + 0,
];

/** True where letters and arrows belong to the control that has the focus. A fader takes its own and leaves the rest. */
function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      target.closest('input, textarea, select, [role="menu"], [role="dialog"], [role="tablist"]') !== null)
  );
}
