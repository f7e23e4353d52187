import { ok, type Result } from '../../core/result.ts';
import { isEqualData } from '../../document/plainData.ts';
import type { Setup } from '../../document/setup.ts';
import type { DocumentState, DocumentStore } from '../../document/store.ts';
import type { Generations } from './generations.ts';
import type { StorageFault } from './keyValue.ts';

export type AutosaveStatus =
  | { readonly kind: 'saved'; readonly savedAtMs: number }
  | { readonly kind: 'waiting' }
  | { readonly kind: 'failed'; readonly fault: StorageFault };

export interface AutosaveOptions {
  readonly document: Pick<DocumentStore, 'getState' | 'subscribe'>;
  readonly generations: Generations;
  /** True when the setup that is open now came from autosave: nowhere else may have it. */
  readonly isRestored?: boolean;
  /** Calls the listener when the page may be about to go; gives a function that stops it. */
  readonly onPageHide?: (listener: () => void) => () => void;
  readonly onStatus?: (status: AutosaveStatus) => void;
}

export interface Autosave {
  /** Saves now what is not saved yet. */
  flush(): Promise<Result<void, StorageFault>>;
  stop(): void;
}

/** From the first unsaved change to its save, at most: half a second after a step, a second within a drag. */
const AFTER_STEP_MS = 400;
const WITHIN_DRAG_MS = 900;
const RETRY_MS = 5000;

/**
 * Keeps the open setup in the browser as it changes. A read-only setup is never saved, so that it can't take the place
 * of the one that was being worked on. A setup that was edited and then makes way for another is kept as the previous
 * one.
 */
export function startAutosave(options: AutosaveOptions): Autosave {
  const { document, generations, onPageHide, onStatus } = options;
  let savedSetup: Setup = document.getState().setup;
  /** The setup as it came from a file, which has nothing to lose while it is still so; null when it has. */
  let unspoiltSetup: Setup | null = options.isRestored ? null : savedSetup;
  /** Setups that were kept as previous ones; when one comes back it is as dear as before. */
  const keptSetups: Setup[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;
  let dueMs = Number.POSITIVE_INFINITY;
  let writing: Promise<Result<void, StorageFault>> | null = null;
  let stopped = false;

  const isUnsaved = (): boolean => {
    const { setup, readOnlyReason } = document.getState();
    return readOnlyReason === undefined && setup !== savedSetup;
  };

  const schedule = (delayMs: number): void => {
    const wantedMs = Date.now() + delayMs;
    if (stopped || wantedMs >= dueMs) return;
    clearTimeout(timer);
    dueMs = wantedMs;
    timer = setTimeout(() => void save(), delayMs);
  };

  const write = async (): Promise<Result<void, StorageFault>> => {
    const { setup } = document.getState();
    const savedAtMs = Date.now();
    const written = await generations.save(setup, savedAtMs);
    if (written.ok) savedSetup = setup;
    onStatus?.(written.ok ? { kind: 'saved', savedAtMs } : { kind: 'failed', fault: written.error });
    return written;
  };

  const save = async (): Promise<Result<void, StorageFault>> => {
    clearTimeout(timer);
    dueMs = Number.POSITIVE_INFINITY;
    // One write at a time, or two could go to the two generations in the wrong order.
    while (writing) await writing;
    if (!isUnsaved()) return ok(undefined);
    writing = write();
    const written = await writing;
    writing = null;
    if (!written.ok) schedule(RETRY_MS);
    else if (isUnsaved()) schedule(AFTER_STEP_MS);
    return written;
  };

  const onChange = (state: DocumentState, before: DocumentState): void => {
    if (state.loadCount !== before.loadCount) {
      if (before.setup !== unspoiltSetup && before.readOnlyReason === undefined) {
        keptSetups.push(before.setup);
        void generations.keepPrevious(before.setup, Date.now());
      }
      unspoiltSetup = keptSetups.some((kept) => isEqualData(kept, state.setup)) ? null : state.setup;
    }
    if (!isUnsaved()) return;
    if (state.setup !== before.setup) onStatus?.({ kind: 'waiting' });
    schedule(state.dragLabel === undefined ? AFTER_STEP_MS : WITHIN_DRAG_MS);
  };

  const stopWatching = document.subscribe(onChange);
  const stopHide = onPageHide?.(() => {
    if (!isUnsaved()) return;
    // The page may be gone before a database answers: a copy that needs no answer goes first.
    generations.saveParting(document.getState().setup, Date.now());
    void save();
  });

  return {
    flush: save,
    stop() {
      stopped = true;
      clearTimeout(timer);
      stopWatching();
      stopHide?.();
    },
  };
}

/** `pagehide`, and `visibilitychange` to hidden: on a tablet that is often the last that a page hears. */
export function watchPageHide(listener: () => void): () => void {
  const onVisibility = (): void => {
    if (document.visibilityState === 'hidden') listener();
  };
  window.addEventListener('pagehide', listener);
  document.addEventListener('visibilitychange', onVisibility);
  return () => {
    window.removeEventListener('pagehide', listener);
    document.removeEventListener('visibilitychange', onVisibility);
  };
}
