import type { Setup } from '../document/setup.ts';
import { decodeShareLink } from '../document/shareLink.ts';
import { documentStore, showNotice } from '../views/session/index.ts';
import { FIRST_DEMO, loadDemo } from './demos.ts';
import { startAutosave, watchPageHide } from './storage/autosave.ts';
import type { KeyValueStorage } from './storage/keyValue.ts';
import { openAutosave } from './storage/openAutosave.ts';

export interface OpenedFirst {
  /** Where this browser keeps things; null where it keeps nothing. */
  readonly storage: KeyValueStorage | null;
  /** Nothing was asked for and nothing was worked on here before. */
  readonly isFirstVisit: boolean;
  /** What is open is what was worked on last in this browser. */
  readonly isRestored: boolean;
}

/**
 * Opens what the page begins with: the setup that the address holds, else the demo that it asks for, else what was last worked on in this browser,
 * else the first demo. Then keeps what is open, as it changes.
 */
export async function openFirstSetup(): Promise<OpenedFirst> {
  const { storage, generations, restored, fault } = await openAutosave();
  const linked = readLinkedSetup();
  const wanted = readWantedDemo();
  const demo = linked.setup ?? (wanted === null ? null : await loadDemo(wanted));
  const kept = restored.kept?.setup ?? null;
  const opened = demo ?? kept ?? (await loadDemo(FIRST_DEMO));
  if (opened) documentStore.load(opened);

  if (fault) showNotice({ tone: 'trouble', text: fault.message });
  else if (linked.trouble !== null) showNotice({ tone: 'trouble', text: linked.trouble });
  else if (wanted !== null && demo === null)
    showNotice({ tone: 'trouble', text: `There is no demo named "${wanted}".` });
  else if (demo !== null && kept !== null) offerBack(kept);
  else if (restored.unreadable) showNotice({ tone: 'trouble', text: restored.unreadable.message });
  if (demo !== null && kept !== null) await generations.keepPrevious(kept, Date.now());

  let saidTrouble = false;
  startAutosave({
    document: documentStore,
    generations,
    isRestored: opened !== null && opened === kept,
    onPageHide: watchPageHide,
    onStatus: (status) => {
      // Said once, not at every try.
      if (status.kind === 'failed' && !saidTrouble) showNotice({ tone: 'trouble', text: status.fault.message });
      saidTrouble = status.kind === 'failed';
    },
  });
  return { storage, isFirstVisit: demo === null && kept === null, isRestored: opened !== null && opened === kept };
}

/**
 * The setup that the address itself holds, taken out of it as a demo is. Links come from anyone: what is in them passes the same
 * checks as a file, bounded in time and memory.
 */
function readLinkedSetup(): { readonly setup: Setup | null; readonly trouble: string | null } {
  const { hash, pathname, search } = window.location;
  if (!hash.startsWith('#setup=')) return { setup: null, trouble: null };
  window.history.replaceState(null, '', pathname + search);
  const opened = decodeShareLink(hash);
  return opened.ok ? { setup: opened.value.setup, trouble: null } : { setup: null, trouble: opened.error.message };
}

/** The demo is taken out of the address, so that a reload brings back what was made of it and not the demo again. */
function readWantedDemo(): string | null {
  const url = new URL(window.location.href);
  const wanted = url.searchParams.get('demo');
  if (wanted === null) return null;
  url.searchParams.delete('demo');
  window.history.replaceState(null, '', url);
  return wanted;
}

function offerBack(kept: Setup): void {
  showNotice({
    tone: 'done',
    text: `Opened ${documentStore.getState().setup.title}.`,
    action: { label: `Back to ${kept.title}`, run: () => documentStore.load(kept) },
  });
}
