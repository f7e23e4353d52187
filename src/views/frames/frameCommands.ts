import { newId } from '../../document/defaults.ts';
import type { Frame, Setup } from '../../document/setup.ts';
import { documentStore, sessionStore, shareDeskChanges, showNotice } from '../session/index.ts';

const read = (): Setup => documentStore.getState().setup;
const find = (frameId: string): Frame => {
  const { frames } = read();
  return frames.find(({ id }) => id === frameId) ?? frames[0];
};
export const showFrame = (frameId: string): void => sessionStore.setState({ frameId, activeFindingId: null });

/** The name itself, or with the first free number after it. */
export function freeFrameName(frames: readonly Pick<Frame, 'name'>[], name: string): string {
  const taken = new Set(frames.map((frame) => frame.name));
  const stem = name.replace(/ \d+$/, '');
  if (!taken.has(name)) return name;
  let number = 2;
  while (taken.has(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`.slice(0, 120);
}

/**
 * A new frame of the same set, seen as the one on screen is seen now, with a desk and limits of its own. It starts from the
 * lights as they are and leaves nothing out.
 */
export function addFrame(): void {
  const { frames } = read();
  const from = find(sessionStore.getState().frameId);
  putIn(from, {
    ...from,
    name: freeFrameName(frames, `Frame ${frames.length + 1}`),
    hidden: [],
    limits: {},
    marks: null,
  });
}

/** The same frame once more: camera, desk, limits, what it leaves out and what differs in it. */
export function duplicateFrame(frameId: string): void {
  const from = find(frameId);
  putIn(from, { ...from, name: freeFrameName(read().frames, from.name) });
}

function putIn(after: Frame, frame: Readonly<Record<string, unknown>>): void {
  const setup = read();
  const id = newId(setup, 'frame');
  const { marks, ...rest } = frame;
  const made = { ...rest, ...(marks ? { marks } : {}), id, ownDesk: true };
  const index = setup.frames.indexOf(after) + 1;
  if (documentStore.apply(`New frame ${String(frame.name)}`, [{ op: 'addFrame', frame: made, index }]).ok)
    showFrame(id);
}

export function renameFrame(frameId: string, name: string): void {
  const wanted = name.trim();
  if (wanted === '' || wanted === find(frameId).name) return;
  documentStore.apply(`Name the frame ${wanted}`, [{ op: 'updateFrame', id: frameId, patch: { name: wanted } }]);
}

export function removeFrame(frameId: string): void {
  const { frames } = read();
  if (frames.length < 2) return;
  const frame = find(frameId);
  const index = frames.indexOf(frame);
  if (!documentStore.apply(`Remove ${frame.name}`, [{ op: 'removeFrame', id: frameId }]).ok) return;
  showFrame((frames[index + 1] ?? frames[index - 1]).id);
  showNotice({
    tone: 'done',
    text: `Removed the frame ${frame.name}.`,
    action: { label: 'Undo', run: () => documentStore.undo() && showFrame(frameId) },
  });
}

export function moveFrame(frameId: string, step: -1 | 1): void {
  const toIndex = read().frames.findIndex(({ id }) => id === frameId) + step;
  documentStore.apply('Order of the frames', [{ op: 'moveFrame', id: frameId, toIndex }]);
}

/** A desk of its own, or the one that all frames without their own share. */
export function setOwnDesk(frameId: string, own: boolean): void {
  const frame = find(frameId);
  documentStore.apply(
    own ? `Own desk for ${frame.name}` : `Shared desk for ${frame.name}`,
    own ? [{ op: 'updateFrame', id: frameId, patch: { ownDesk: true } }] : shareDeskChanges(read(), frame),
  );
}
