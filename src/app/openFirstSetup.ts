import type { Setup } from '../document/setup.ts';
import { documentStore, showNotice } from '../views/session/index.ts';
import { FIRST_DEMO, loadDemo } from './demos.ts';
import { startAutosave, watchPageHide } from './storage/autosave.ts';
import { openAutosave } from './storage/openAutosave.ts';

/**
 * Opens what the page begins with: the demo that the address asks for, else what was last worked on in this browser,
 * else the first demo. Then keeps what is open, as it changes.
 */
export async function openFirstSetup(): Promise<void> {
  const { generations, restored, fault } = await openAutosave();
  const wanted = readWantedDemo();
  const demo = wanted === null ? null : await loadDemo(wanted);
  const kept = restored.kept?.setup ?? null;
  const opened = demo ?? kept ?? (await loadDemo(FIRST_DEMO));
  if (opened) documentStore.load(opened);

  if (fault) showNotice({ tone: 'trouble', text: fault.message });
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
