import { createStore, type StoreApi } from 'zustand/vanilla';
import { fail, invariant, ok, type Result } from '../core/result.ts';
import { applyChanges, type DocumentChange } from './changes.ts';
import { applyDiff, diffSetups } from './diff.ts';
import { EMPTY_HISTORY, type History, recordStep, stepBack, stepForward } from './history.ts';
import type { SetupIssue } from './issues.ts';
import { freezeDeep, shareStructure } from './plainData.ts';
import type { Setup } from './setup.ts';
import { validateSetup } from './validate.ts';

export interface DocumentState {
  /** Deep-frozen plain data. Records that did not change keep their identity from one revision to the next. */
  readonly setup: Setup;
  /** Goes up by one each time the setup changes in any way. */
  readonly revision: number;
  /** Goes up by one each time another document is loaded. */
  readonly loadCount: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly undoLabel?: string;
  readonly redoLabel?: string;
  /** Label of the drag under way, if any. */
  readonly dragLabel?: string;
  /** Why nothing can be edited, if so: one sentence. */
  readonly readOnlyReason?: string;
}

type Outcome = Result<Setup, readonly SetupIssue[]>;

/** What can be done to the document. Numbered rules: SPEC.md. */
export interface DocumentActions {
  /** One undoable step. A drag under way is committed first. Changes that change nothing make no step. */
  apply(label: string, changes: readonly DocumentChange[]): Outcome;
  /** Begins a drag: many updates that will be one step. */
  begin(label: string): Outcome;
  /** Changes the document within a drag, on top of what the drag did so far. */
  update(changes: readonly DocumentChange[]): Outcome;
  /** Ends the drag as one undoable step. */
  commit(): void;
  /** Ends the drag and goes back to exactly where it began. */
  cancel(): void;
  /** Takes back the last step; within a drag, cancels the drag. False when there is nothing to take back. */
  undo(): boolean;
  /** False when there is nothing to do again. */
  redo(): boolean;
  /** Another document, with a history of its own. */
  load(setup: Setup, options?: { readonly readOnlyReason?: string }): Outcome;
}

/**
 * The document. State is read and watched as in any vanilla zustand store (`useStore(store, selector)` in React);
 * it is changed through the actions alone.
 */
export type DocumentStore = Pick<StoreApi<DocumentState>, 'getState' | 'getInitialState' | 'subscribe'> &
  DocumentActions;

interface Drag {
  readonly label: string;
  readonly mark: Setup;
}

/** @param initial must be a valid setup; a faulty one is a programmer's mistake here and throws. */
export function createDocumentStore(initial: Setup): DocumentStore {
  const checked = validateSetup(initial);
  invariant(checked.ok, () => (checked.ok ? '' : checked.error.map((issue) => issue.message).join(' ')));

  let history: History = EMPTY_HISTORY;
  let drag: Drag | null = null;
  const store = createStore<DocumentState>(() => ({
    setup: checked.value,
    revision: 0,
    loadCount: 0,
    canUndo: false,
    canRedo: false,
  }));

  /** Publishes a setup together with what the history and the drag now say. */
  const publish = (setup: Setup, kept: Pick<DocumentState, 'loadCount' | 'readOnlyReason'> = store.getState()) => {
    const before = store.getState();
    const dragged = drag !== null && drag.mark !== setup;
    const undoLabel = dragged ? drag?.label : history.done.at(-1)?.label;
    const redoLabel = dragged ? undefined : history.undone.at(-1)?.label;
    store.setState(
      {
        setup,
        revision: before.setup === setup ? before.revision : before.revision + 1,
        loadCount: kept.loadCount,
        canUndo: undoLabel !== undefined,
        canRedo: redoLabel !== undefined,
        ...(undoLabel === undefined ? {} : { undoLabel }),
        ...(redoLabel === undefined ? {} : { redoLabel }),
        ...(drag ? { dragLabel: drag.label } : {}),
        ...(kept.readOnlyReason === undefined ? {} : { readOnlyReason: kept.readOnlyReason }),
      },
      true,
    );
  };

  const refuseReadOnly = (): Outcome | null => {
    const { readOnlyReason } = store.getState();
    return readOnlyReason === undefined ? null : fail([{ path: '', message: readOnlyReason }]);
  };

  const commit = () => {
    if (!drag) return;
    const { setup } = store.getState();
    const diff = diffSetups(drag.mark, setup);
    if (diff) history = recordStep(history, { label: drag.label, diff });
    drag = null;
    publish(setup);
  };

  const cancel = () => {
    if (!drag) return;
    const { mark } = drag;
    drag = null;
    publish(mark);
  };

  return {
    getState: store.getState,
    getInitialState: store.getInitialState,
    subscribe: store.subscribe,

    apply(label, changes) {
      const refused = refuseReadOnly();
      if (refused) return refused;
      const { setup } = store.getState();
      const applied = applyChanges(setup, changes);
      if (!applied.ok) return applied;
      commit();
      const next = freezeDeep(shareStructure(setup, applied.value));
      const diff = diffSetups(setup, next);
      if (!diff) return ok(setup);
      history = recordStep(history, { label, diff });
      publish(next);
      return ok(next);
    },

    begin(label) {
      const refused = refuseReadOnly();
      if (refused) return refused;
      commit();
      const { setup } = store.getState();
      drag = { label, mark: setup };
      publish(setup);
      return ok(setup);
    },

    update(changes) {
      const refused = refuseReadOnly();
      if (refused) return refused;
      invariant(drag !== null, () => 'update() was called outside a drag; call begin() first');
      const { setup } = store.getState();
      const next = applyChanges(setup, changes);
      if (!next.ok) return next;
      // A thing dragged back to where it was is the very thing that it was, so such a drag leaves no step.
      publish(freezeDeep(shareStructure(drag.mark, next.value)));
      return ok(store.getState().setup);
    },

    commit,
    cancel,

    undo() {
      if (drag) {
        const changed = store.getState().canUndo && drag.mark !== store.getState().setup;
        cancel();
        if (changed) return true;
      }
      const step = stepBack(history);
      if (!step) return false;
      history = step.history;
      publish(applyDiff(store.getState().setup, step.entry.diff, 'backward'));
      return true;
    },

    redo() {
      if (drag) return false;
      const step = stepForward(history);
      if (!step) return false;
      history = step.history;
      publish(applyDiff(store.getState().setup, step.entry.diff, 'forward'));
      return true;
    },

    load(setup, options = {}) {
      const next = validateSetup(setup);
      if (!next.ok) return next;
      history = EMPTY_HISTORY;
      drag = null;
      publish(next.value, { loadCount: store.getState().loadCount + 1, ...options });
      return next;
    },
  };
}
