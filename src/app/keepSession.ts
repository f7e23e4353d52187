import type { Setup } from '../document/setup.ts';
import {
  CAMERA_ID,
  documentStore,
  type PictureMode,
  SESSION_SCOPE,
  selectionOf,
  selectRecords,
  sessionStore,
} from '../views/session/index.ts';

const STORAGE_KEY = 'keyglass:session';
const PICTURE_MODES: readonly string[] = ['picture', 'stops', 'linear'] satisfies PictureMode[];
const PROJECTIONS: readonly string[] = ['plan', 'front', 'side'];

/** Ids that a selection may point at. */
const recordIds = (setup: Setup): ReadonlySet<string> =>
  new Set([
    CAMERA_ID,
    ...(setup.turntable ? ['turntable'] : []),
    ...[setup.pieces, setup.fixtures, setup.grip].flatMap((list) => list.map((record: { id: string }) => record.id)),
  ]);

/** Lets go of what is no longer in the document: undo and remedies may take away what is selected. */
function repairSession(): void {
  const { setup } = documentStore.getState();
  const session = sessionStore.getState();
  const ids = recordIds(setup);
  if (!setup.frames.some((frame) => frame.id === session.frameId)) {
    sessionStore.setState({ frameId: setup.frames[0].id, activeFindingId: null });
  }
  const selected = selectionOf(session);
  if (selected.some((id) => !ids.has(id))) selectRecords(selected.filter((id) => ids.has(id)));
  if (session.hoveredId !== null && !ids.has(session.hoveredId)) sessionStore.setState({ hoveredId: null });
  if (session.soloFixtureIds.some((id) => !ids.has(id))) {
    sessionStore.setState({ soloFixtureIds: session.soloFixtureIds.filter((id) => ids.has(id)) });
  }
}

/** Keeps the session in step with the document, and the part of it that is worth keeping in this browser. */
export function keepSession(): void {
  restore();
  repairSession();
  documentStore.subscribe((state, before) => {
    if (state.loadCount !== before.loadCount) {
      sessionStore.setState({
        selectedId: null,
        selectedIds: [],
        hoveredId: null,
        soloFixtureIds: [],
        activeFindingId: null,
      });
    }
    if (state.setup !== before.setup) repairSession();
  });
  sessionStore.subscribe((state) => {
    const kept = Object.fromEntries(
      Object.entries(state).filter(([key]) => SESSION_SCOPE[key as keyof typeof SESSION_SCOPE].persist),
    );
    try {
      localStorage.setItem(STORAGE_KEY, JSON.stringify(kept));
    } catch {
      // A full or forbidden storage costs the choice of view, nothing else.
    }
  });
}

function restore(): void {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(STORAGE_KEY) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return;
    const { frameId, pictureMode, drawingProjection, smooth } = kept as Record<string, unknown>;
    const { pictureMode: mode, drawingProjection: projection } = sessionStore.getState();
    sessionStore.setState({
      frameId: typeof frameId === 'string' ? frameId : '',
      pictureMode: isOneOf(pictureMode, PICTURE_MODES) ? (pictureMode as PictureMode) : mode,
      ...(typeof smooth === 'boolean' ? { smooth } : {}),
      drawingProjection: isOneOf(drawingProjection, PROJECTIONS)
        ? (drawingProjection as typeof projection)
        : projection,
    });
  } catch {
    // Unreadable leftovers are passed over.
  }
}

const isOneOf = (value: unknown, options: readonly string[]): boolean =>
  typeof value === 'string' && options.includes(value);
