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
  if (sessionStore.getState().selectedId !== selectedId) sessionStore.setState({ selectedId });
}

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
