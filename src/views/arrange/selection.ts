import { groupOf, isLocked } from '../../document/arrangement.ts';
import { CAMERA_ID, documentStore, selectionOf, selectRecords, sessionStore } from '../session/index.ts';

export const getSelection = (): readonly string[] => selectionOf(sessionStore.getState());

/** A record and what is in one group with it, itself last. */
function withGroup(recordId: string): readonly string[] {
  const group = groupOf(documentStore.getState().setup, recordId);
  return group ? [...group.ids.filter((id) => id !== recordId), recordId] : [recordId];
}

/**
 * Selects what a hand has pressed: with its group, or `alone` out of it; `add` puts it to what is selected already, or
 * takes it out again. Null lets go of everything.
 */
export function pickRecord(
  recordId: string | null,
  how: { readonly add?: boolean; readonly alone?: boolean } = {},
): void {
  if (recordId === null) {
    if (!how.add) selectRecords([]);
    return;
  }
  const picked = how.alone ? [recordId] : withGroup(recordId);
  if (!how.add) {
    selectRecords(picked);
    return;
  }
  const before = getSelection();
  const kept = before.filter((id) => !picked.includes(id));
  selectRecords(before.includes(recordId) ? kept : [...kept, ...picked]);
}

/** Selects several things with their groups, or puts them to what is selected already. */
export function pickRecords(recordIds: readonly string[], add = false): void {
  const picked = recordIds.flatMap(withGroup);
  selectRecords([...new Set([...(add ? getSelection() : []), ...picked])]);
}

/** Does a lock hold this record still? 'camera' asks for the camera of the frame on screen. */
export function isHeldStill(recordId: string): boolean {
  const { setup } = documentStore.getState();
  return isLocked(setup, recordId === CAMERA_ID ? sessionStore.getState().frameId : recordId);
}
