import type { Frame, Setup } from '../../document/setup.ts';
import { documentStore, useDocument } from './documentStore.ts';
import { sessionStore, useSession } from './sessionStore.ts';

/** The record of the frame on screen; the first one when there is none of that id. */
const frameOf = (setup: Setup, frameId: string): Frame =>
  setup.frames.find((frame) => frame.id === frameId) ?? setup.frames[0];

export const getFrame = (): Frame => frameOf(documentStore.getState().setup, sessionStore.getState().frameId);

export function useFrame(): Frame {
  const frameId = useSession((state) => state.frameId);
  return useDocument((state) => frameOf(state.setup, frameId));
}

/** Edits fields of the frame on screen: one undoable step. */
export const editFrame = (label: string, patch: Readonly<Record<string, unknown>>): boolean =>
  documentStore.apply(label, [{ op: 'updateFrame', id: getFrame().id, patch }]).ok;
