import { useStore } from 'zustand';
import { ok } from '../../core/result.ts';
import type { DocumentChange } from '../../document/changes.ts';
import { emptySetup } from '../../document/defaults.ts';
import { createDocumentStore, type DocumentState, type DocumentStore } from '../../document/store.ts';
import { followHero } from './followHero.ts';
import { keepDesks } from './keepDesks.ts';
import { showNotice } from './notices.ts';
import { routeChanges } from './routeChanges.ts';
import { sessionStore } from './sessionStore.ts';

const inner = createDocumentStore(emptySetup());

/** Sends changes where the frame on screen reads from, and takes along what belongs with them. */
function routed(changes: readonly DocumentChange[]): readonly DocumentChange[] {
  const { frameId } = sessionStore.getState();
  const { setup } = inner.getState();
  const frame = setup.frames.find(({ id }) => id === frameId);
  return routeChanges(frame, keepDesks(setup, frame, followHero(setup, frame, changes)));
}

/**
 * The open setup, its history and its commands. One per page. Edits follow the frame on screen (see
 * {@link routeChanges}); a refused command says why in the message strip.
 */
export const documentStore: DocumentStore = {
  ...inner,
  apply(label, changes) {
    const outcome = inner.apply(label, routed(changes));
    if (!outcome.ok) showNotice({ tone: 'trouble', text: outcome.error[0]?.message ?? 'That change was refused.' });
    return outcome;
  },
  update(changes) {
    // Another command (a key, a remedy) may have ended the drag while the pointer still moves.
    const { dragLabel, setup } = inner.getState();
    return dragLabel === undefined ? ok(setup) : inner.update(routed(changes));
  },
};

/** Reads the document in React; select the least that the component draws. */
export function useDocument<T>(selector: (state: DocumentState) => T): T {
  return useStore(inner, selector);
}
