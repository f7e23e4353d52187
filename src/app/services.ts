import { assertNever } from '../core/result.ts';
import type { SetupError } from '../document/codec.ts';
import type { Setup } from '../document/setup.ts';
import { encodeShareLink } from '../document/shareLink.ts';
import { documentStore, type Services, showNotice } from '../views/session/index.ts';
import { DEMOS, loadDemo } from './demos.ts';
import { createBrowserFilePort } from './storage/browserFilePort.ts';
import { downloadFile } from './storage/downloadFile.ts';
import {
  type FileFault,
  fileNameFor,
  openSetupFile,
  readSetupFile,
  type SetupFile,
  type SetupFileTarget,
  saveSetupFile,
} from './storage/fileIo.ts';

export interface AppServices extends Services {
  openDroppedFile(file: SetupFile): Promise<void>;
}

/** Files and demos, as the buttons of the page call for them. What goes wrong is said in the message strip. */
export function createServices({ webgl2 }: Pick<Services, 'webgl2'>): AppServices {
  /** Where the open setup lives on disk, when it was opened from or saved to a place that can be written again. */
  let target: SetupFileTarget | undefined;
  let targetLoadCount = -1;

  const openOrSay = (setup: Setup, opened?: SetupFileTarget) => {
    if (!openSetup(setup)) return;
    target = opened;
    targetLoadCount = documentStore.getState().loadCount;
  };
  return {
    webgl2,
    demos: DEMOS,
    kept: null,
    startSetup: (setup) => openOrSay(setup),
    async openDemo(name) {
      const setup = await loadDemo(name);
      if (setup) openOrSay(setup);
    },
    async openSetupFile() {
      const opened = await openSetupFile(createBrowserFilePort());
      if (!opened.ok) sayFileTrouble(opened.error);
      else if (opened.value) openOrSay(opened.value.setup, opened.value.target);
    },
    async openDroppedFile(file) {
      const opened = await readSetupFile(file);
      if (!opened.ok) sayFileTrouble(opened.error);
      else openOrSay(opened.value.setup);
    },
    async saveSetupFile() {
      const { setup, loadCount } = documentStore.getState();
      const saved = await saveSetupFile(
        createBrowserFilePort(),
        setup,
        targetLoadCount === loadCount ? target : undefined,
      );
      if (!saved.ok) {
        showNotice({ tone: 'trouble', text: saved.error.message });
        return;
      }
      if (!saved.value.saved) return;
      target = saved.value.target;
      targetLoadCount = loadCount;
      showNotice({ tone: 'done', text: `Saved ${target?.name ?? fileNameFor(setup.title)}.` });
    },
    async savePicture(png, title) {
      const fileName = fileNameFor(title).replace(/\.json$/, '.png');
      downloadFile(fileName, png);
      showNotice({ tone: 'done', text: `Saved ${fileName}.` });
    },
    async handOverTraced(job, onProgress, stop) {
      await (await import('./handOver/handOverTraced.ts')).handOverTraced(job, onProgress, stop);
    },
    async predictMeter() {
      return (await import('./handOver/predictMeter.ts')).predictMeter();
    },
    async copyShareLink() {
      const link = encodeShareLink(documentStore.getState().setup);
      if (!link.ok) {
        showNotice({ tone: 'trouble', text: link.error.message });
        return;
      }
      try {
        await navigator.clipboard.writeText(new URL(link.value, window.location.href).href);
        showNotice({ tone: 'done', text: 'The link is copied: whoever opens it gets this setup as it is now.' });
      } catch {
        showNotice({
          tone: 'trouble',
          text: 'This browser does not let the page copy: save the setup and send the file.',
        });
      }
    },
    async handOver(kind, words) {
      try {
        // Fetched when first asked for: most sessions never hand over.
        await (await import('./handOver/handOver.ts')).handOver(kind, words);
      } catch {
        showNotice({ tone: 'trouble', text: 'That part of the program could not be fetched: reload and try again.' });
      }
    },
  };
}

/**
 * Opens another setup in place of the open one, and offers the way back: the history of the document does not reach
 * behind the change.
 */
export function openSetup(setup: Setup, readOnlyReason?: string): boolean {
  const before = documentStore.getState();
  const opened = documentStore.load(setup, readOnlyReason === undefined ? {} : { readOnlyReason });
  if (!opened.ok) {
    showNotice({ tone: 'trouble', text: opened.error[0]?.message ?? 'That setup cannot be opened.' });
    return false;
  }
  showNotice({
    tone: 'done',
    text: readOnlyReason ?? `Opened ${setup.title}.`,
    action: {
      label: `Back to ${before.setup.title}`,
      run: () =>
        documentStore.load(
          before.setup,
          before.readOnlyReason === undefined ? {} : { readOnlyReason: before.readOnlyReason },
        ),
    },
  });
  return true;
}

/** Says what is wrong with a file and what to do. The open setup is left as it is. */
function sayFileTrouble(error: FileFault | SetupError): void {
  switch (error.kind) {
    case 'tooNew':
      if (error.readable) {
        openSetup(error.readable, `${error.message} It is open to look at; nothing can be changed.`);
        return;
      }
      showNotice({ tone: 'trouble', text: error.message, detail: STILL_OPEN });
      return;
    case 'notJson':
    case 'refused':
    case 'notASetup':
    case 'invalid':
    case 'tooLarge':
    case 'notText':
    case 'notOneFile':
    case 'notAllowed':
    case 'failed':
      showNotice({ tone: 'trouble', text: error.message, detail: STILL_OPEN });
      return;
    default:
      assertNever(error);
  }
}

const STILL_OPEN = 'The open setup is untouched.';
