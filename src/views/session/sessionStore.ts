import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

export type PictureMode = 'picture' | 'stops' | 'linear';
export type DrawingProjection = 'plan' | 'front' | 'side';

/** What one person is looking at. Never in the document, never in a file, never undone. */
export interface SessionState {
  /** Id of the frame on screen; '' until a setup is open. */
  readonly frameId: string;
  /** Fixture, piece or grip record; 'camera' for the frame's camera. */
  readonly selectedId: string | null;
  /** All that is selected, `selectedId` among them; read through `selectionOf`. */
  readonly selectedIds: readonly string[];
  readonly hoveredId: string | null;
  /** With any soloed, only those fixtures light the picture and the stage. The checks do not listen to it. */
  readonly soloFixtureIds: readonly string[];
  readonly activeFindingId: string | null;
  readonly pictureMode: PictureMode;
  /** Show the traced picture smoothed. Says so on the picture; figures never read it. */
  readonly smooth: boolean;
  readonly drawingProjection: DrawingProjection;
  /** True while something is held: views show the quick picture and defer costly work. */
  readonly dragging: boolean;
}

/** How each key lives. Exhaustive: a new key without a line here does not compile. */
export const SESSION_SCOPE: {
  readonly [Key in keyof SessionState]: { readonly persist: boolean; readonly undoable: false };
} = {
  frameId: { persist: true, undoable: false },
  selectedId: { persist: false, undoable: false },
  selectedIds: { persist: false, undoable: false },
  hoveredId: { persist: false, undoable: false },
  soloFixtureIds: { persist: false, undoable: false },
  activeFindingId: { persist: false, undoable: false },
  pictureMode: { persist: true, undoable: false },
  smooth: { persist: true, undoable: false },
  drawingProjection: { persist: true, undoable: false },
  dragging: { persist: false, undoable: false },
};

/** Selection id that stands for the frame's camera. */
export const CAMERA_ID = 'camera';

export const INITIAL_SESSION: SessionState = {
  frameId: '',
  selectedId: null,
  selectedIds: [],
  hoveredId: null,
  soloFixtureIds: [],
  activeFindingId: null,
  pictureMode: 'picture',
  smooth: true,
  drawingProjection: 'plan',
  dragging: false,
};

export const sessionStore = createStore<SessionState>(() => INITIAL_SESSION);

/** Reads the session in React; select the least that the component draws. */
export function useSession<T>(selector: (state: SessionState) => T): T {
  return useStore(sessionStore, selector);
}

export function selectRecord(selectedId: string | null): void {
  selectRecords(selectedId === null ? [] : [selectedId]);
}

/** Selects several; the last is the one that the inspector and the figures speak of. */
export function selectRecords(ids: readonly string[]): void {
  const before = selectionOf(sessionStore.getState());
  if (before.length === ids.length && ids.every((id, i) => id === before[i])) return;
  sessionStore.setState({ selectedIds: ids, selectedId: ids.at(-1) ?? null });
}

const alone = new Map<string, readonly string[]>();
const NOTHING: readonly string[] = [];

/** All that is selected, the one that the inspector speaks of last; the same array for as long as it stays the same. */
export function selectionOf({ selectedId, selectedIds }: SessionState): readonly string[] {
  if (selectedId === null) return NOTHING;
  if (selectedIds.includes(selectedId)) return selectedIds;
  const known = alone.get(selectedId) ?? [selectedId];
  alone.set(selectedId, known);
  return known;
}

export const useSelection = (): readonly string[] => useSession(selectionOf);

export function hoverRecord(hoveredId: string | null): void {
  if (sessionStore.getState().hoveredId !== hoveredId) sessionStore.setState({ hoveredId });
}

export function activateFinding(activeFindingId: string | null): void {
  sessionStore.setState({ activeFindingId });
}

/** Soloes a fixture beside those already soloed, or lets it go. */
export function toggleSolo(fixtureId: string): void {
  const { soloFixtureIds } = sessionStore.getState();
  sessionStore.setState({
    soloFixtureIds: soloFixtureIds.includes(fixtureId)
      ? soloFixtureIds.filter((id) => id !== fixtureId)
      : [...soloFixtureIds, fixtureId],
  });
}

/** Call with true when a drag begins and with false when it ends, also when it is cancelled. */
export function setDragging(dragging: boolean): void {
  if (sessionStore.getState().dragging !== dragging) sessionStore.setState({ dragging });
}
