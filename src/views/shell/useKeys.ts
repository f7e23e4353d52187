import { useEffect } from 'react';
import { add, type Vec3 } from '../../core/vec3.ts';
import {
  aimSelectedAtSubject,
  centreSelected,
  duplicateSelected,
  getSelection,
  groupSelected,
  hideSelected,
  isHeldStill,
  pickRecords,
  putTapeAway,
  removeSelected,
  sayLocked,
  setLocked,
  tapeStore,
  toggleTape,
  ungroupSelected,
} from '../arrange/index.ts';
import { holdTogether, moveChanges } from '../drawing/moveRecord.ts';
import { addFrame, showFrame } from '../frames/index.ts';
import { openSearch } from '../search/searchStore.ts';
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
import { openShelf } from '../shelf/shelfStore.ts';
import { openStart } from '../start/startStore.ts';
import { isTyping } from './isTyping.ts';

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
  // While somebody types, undo and the keys of editing belong to the field.
  if (['z', 'y', 'a', 'd', 'g'].includes(key) && isTyping(event.target)) return false;
  if (key === 'k') openSearch();
  else if (key === 'z' && !event.shiftKey) documentStore.undo();
  else if (key === 'y' || (key === 'z' && event.shiftKey)) documentStore.redo();
  else if (key === 's') void services.saveSetupFile();
  else if (key === 'o' && event.shiftKey) openStart();
  else if (key === 'o') void services.openSetupFile();
  else if (key === 'a') selectEverything();
  else if (key === 'd') duplicateSelected();
  else if (key === 'g' && event.shiftKey) ungroupSelected();
  else if (key === 'g') groupSelected();
  else if (key === 'f' && event.shiftKey) addFrame();
  else return false;
  return true;
}

function selectEverything(): void {
  const { pieces, fixtures, grip } = getFrameScene();
  pickRecords([...pieces, ...fixtures, ...grip].map(({ id }) => id));
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
    if (frame) showFrame(frame.id);
    return frame !== undefined;
  }
  const key = event.key.toLowerCase();
  if (key === 'f') {
    sessionStore.setState(({ pictureMode }) => ({ pictureMode: pictureMode === 'stops' ? 'picture' : 'stops' }));
    return true;
  }
  if (key === 'a') {
    openShelf('lights');
    return true;
  }
  if (key === 'r') {
    toggleTape();
    return true;
  }
  if (key === 'd') {
    sessionStore.setState(({ drawingProjection: now }) => ({
      drawingProjection: now === 'plan' ? 'front' : now === 'front' ? 'side' : 'plan',
    }));
    return true;
  }
  return runSelectionKey(key) || nudgeSelected(event);
}

/** Keys that act on what is selected; false where nothing is, or the key is none of them. */
function runSelectionKey(key: string): boolean {
  const selected = getSelection();
  const fixture = selectedFixture();
  if (selected.length === 0) return false;
  if (key === 'm') return switchSelected();
  if (key === 's' && fixture) toggleSolo(fixture.id);
  else if (key === 'l') setLocked(selected, !selected.every(isHeldStill));
  else if (key === 'h') hideSelected();
  else if (key === 'x') centreSelected();
  else if (key === 'q') aimSelectedAtSubject();
  else if (key === 'delete' || key === 'backspace') removeSelected();
  else return false;
  return true;
}

/** First lets go of what is held, then of the open finding, then of the selection. */
function letGo(): boolean {
  const session = sessionStore.getState();
  if (documentStore.getState().dragLabel !== undefined) {
    documentStore.cancel();
    setDragging(false);
  } else if (tapeStore.getState().out) putTapeAway();
  else if (session.activeFindingId !== null) activateFinding(null);
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
  const hold = holdTogether(getFrameScene(), selectedId, getSelection());
  if (!hold) return false;
  const still = [hold, ...(hold.others ?? [])].map(({ recordId }) => recordId).filter(isHeldStill);
  if (still.length > 0) sayLocked(still);
  else documentStore.apply('Nudge', moveChanges(hold, roundM(add(hold.positionM, moveM)), frameId));
  return true;
}

const roundM = (pointM: Vec3): Vec3 => [
  Number(pointM[0].toFixed(4)) + 0,
  Number(pointM[1].toFixed(4)) + 0,
  Number(pointM[2].toFixed(4)) + 0,
];
