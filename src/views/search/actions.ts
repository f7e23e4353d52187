import {
  aimSelectedAtSubject,
  alignSelected,
  centreSelected,
  duplicateSelected,
  getSelection,
  groupSelected,
  hideSelected,
  isHeldStill,
  lineWords,
  pickRecords,
  removeSelected,
  setLocked,
  showAll,
  spreadSelected,
  spreadWords,
  toggleTape,
  ungroupSelected,
} from '../arrange/index.ts';
import { addFrame, duplicateFrame, moveFrame, removeFrame, setOwnDesk, showFrame } from '../frames/index.ts';
import {
  type DrawingProjection,
  documentStore,
  getFrameScene,
  type PictureMode,
  type Services,
  sessionStore,
} from '../session/index.ts';
import { ROOM_WORDS, SHELF_ENTRIES, SHELF_ROOMS } from '../shelf/shelfEntries.ts';
import { openShelf } from '../shelf/shelfStore.ts';
import { openStart } from '../start/startStore.ts';
import type { Action } from './action.ts';
import { findingActions, lightActions, recordActions } from './setActions.ts';

interface Surroundings {
  readonly services: Services;
  openHelp(): void;
}

/** Everything that can be done now, the most usual first. */
export function listActions({ services, openHelp }: Surroundings): readonly Action[] {
  return [
    ...undoActions(),
    ...selectionActions(),
    ...viewActions(),
    ...frameActions(),
    ...findingActions(),
    ...lightActions(),
    ...recordActions(),
    ...shelfActions(),
    ...setupActions(services),
    { id: 'help', name: 'All keys', part: 'Help', keys: '?', run: openHelp },
  ];
}

const action = (part: string, id: string, name: string, run: () => void, keys?: string): Action => ({
  id,
  name,
  part,
  run,
  ...(keys ? { keys } : {}),
});

function undoActions(): Action[] {
  const { canUndo, canRedo, undoLabel, redoLabel } = documentStore.getState();
  return [
    ...(canUndo ? [action('Setup', 'undo', `Undo: ${undoLabel}`, () => void documentStore.undo(), 'Ctrl + Z')] : []),
    ...(canRedo
      ? [action('Setup', 'redo', `Redo: ${redoLabel}`, () => void documentStore.redo(), 'Ctrl + Shift + Z')]
      : []),
  ];
}

const AXES = [0, 1, 2] as const;
const LINES = ['low', 'middle', 'high'] as const;

function selectionActions(): Action[] {
  const selected = getSelection();
  const scene = getFrameScene();
  const all = [...scene.pieces, ...scene.fixtures, ...scene.grip].map(({ id }) => id);
  const part = 'Selection';
  const always = [
    action(part, 'select-all', 'Select everything', () => pickRecords(all), 'Ctrl + A'),
    action(part, 'select-lights', 'Select all lights', () => pickRecords(scene.fixtures.map(({ id }) => id))),
    action(part, 'show-all', 'Put back all that this frame leaves out', showAll),
    action(part, 'tape', 'Measure with the tape', toggleTape, 'R'),
  ];
  if (selected.length === 0) return always;
  const still = selected.every(isHeldStill);
  const one = [
    action(part, 'duplicate', 'Duplicate', duplicateSelected, 'Ctrl + D'),
    action(part, 'remove', 'Remove', removeSelected, 'Delete'),
    action(part, 'hide', 'Leave out of this frame', () => hideSelected(), 'H'),
    action(part, 'hide-everywhere', 'Leave out of every frame', () => hideSelected(true)),
    action(part, 'lock', still ? 'Unlock' : 'Lock', () => setLocked(selected, !still), 'L'),
    action(part, 'centre', 'Put on the centre line', centreSelected, 'X'),
    action(part, 'aim', 'Look at the subject', aimSelectedAtSubject, 'Q'),
  ];
  if (selected.length === 1) return [...one, ...always];
  return [
    ...one,
    action(part, 'group', 'Group', groupSelected, 'Ctrl + G'),
    action(part, 'ungroup', 'Take the group apart', ungroupSelected, 'Ctrl + Shift + G'),
    ...AXES.flatMap((axis) =>
      LINES.map((line) =>
        action(part, `align-${axis}-${line}`, lineWords(axis, line), () => alignSelected(axis, line)),
      ),
    ),
    ...AXES.map((axis) => action(part, `spread-${axis}`, spreadWords(axis), () => spreadSelected(axis))),
    ...always,
  ];
}

function viewActions(): Action[] {
  const part = 'View';
  const mode = (pictureMode: PictureMode) => () => sessionStore.setState({ pictureMode });
  const sheet = (drawingProjection: DrawingProjection) => () => sessionStore.setState({ drawingProjection });
  return [
    action(part, 'picture', 'Show the picture', mode('picture'), 'F'),
    action(part, 'stops', 'Show stops', mode('stops'), 'F'),
    action(part, 'linear', 'Show linear light', mode('linear')),
    action(part, 'smooth', 'Smooth the grain, or not', () =>
      sessionStore.setState(({ smooth }) => ({ smooth: !smooth })),
    ),
    action(part, 'plan', 'Drawing: plan', sheet('plan'), 'D'),
    action(part, 'front', 'Drawing: front', sheet('front'), 'D'),
    action(part, 'side', 'Drawing: side', sheet('side'), 'D'),
  ];
}

function frameActions(): Action[] {
  const { frames } = documentStore.getState().setup;
  const { frameId } = sessionStore.getState();
  const frame = frames.find(({ id }) => id === frameId) ?? frames[0];
  const part = 'Frames';
  return [
    ...frames.map(({ id, name }, i) =>
      action(part, `frame-${id}`, `Go to ${name}`, () => showFrame(id), i < 9 ? String(i + 1) : undefined),
    ),
    action(part, 'frame-new', 'New frame', addFrame, 'Ctrl + Shift + F'),
    action(part, 'frame-copy', `Duplicate the frame ${frame.name}`, () => duplicateFrame(frame.id)),
    ...(frames.length < 2
      ? []
      : [
          action(
            part,
            'frame-desk',
            frame.ownDesk ? 'Share the desk with the other frames' : 'Give this frame a desk of its own',
            () => setOwnDesk(frame.id, !frame.ownDesk),
          ),
          action(part, 'frame-earlier', `${frame.name}: earlier`, () => moveFrame(frame.id, -1)),
          action(part, 'frame-later', `${frame.name}: later`, () => moveFrame(frame.id, 1)),
          action(part, 'frame-remove', `Remove the frame ${frame.name}`, () => removeFrame(frame.id)),
        ]),
  ];
}

function shelfActions(): Action[] {
  return [
    ...SHELF_ROOMS.map((room) =>
      action(
        'Shelf',
        `shelf-${room}`,
        `Shelf: ${ROOM_WORDS[room].toLowerCase()}`,
        () => openShelf(room),
        room === 'lights' ? 'A' : undefined,
      ),
    ),
    ...SHELF_ENTRIES.map(({ key, name, room, add }) => action(ROOM_WORDS[room], `add-${key}`, `Add ${name}`, add)),
  ];
}

function setupActions(services: Services): Action[] {
  const part = 'Setup';
  return [
    action(part, 'start', 'Setups and ways to begin', () => openStart(), 'Ctrl + Shift + O'),
    action(part, 'brief', 'New setup from a brief', () => openStart('brief')),
    action(part, 'open', 'Open a file', () => void services.openSetupFile(), 'Ctrl + O'),
    action(part, 'save', 'Save to a file', () => void services.saveSetupFile(), 'Ctrl + S'),
    ...services.demos.map(({ name, title, wrong }) =>
      action(
        'Demos',
        `demo-${name}`,
        `Open the demo ${title}${wrong ? ', as it goes wrong' : ''}`,
        () => void services.openDemo(name),
      ),
    ),
    action('Hand over', 'papers', 'Lighting papers, A4', () => void services.handOver('papersA4', 'lighting papers')),
    action(
      'Hand over',
      'client',
      'Page for the client',
      () => void services.handOver('client', 'page with this picture'),
    ),
    action('Hand over', 'kit', 'Kit list', () => void services.handOver('kitList', 'kit list')),
  ];
}
