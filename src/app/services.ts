import type { Setup } from '../document/setup.ts';
import { documentStore, type Services, showNotice } from '../views/session/index.ts';
import { DEMOS, loadDemo } from './demos.ts';

export function createServices(): Services {
  return {
    demos: DEMOS,
    async openDemo(name) {
      const setup = await loadDemo(name);
      if (setup) openSetup(setup);
    },
    async openSetupFile() {},
    async saveSetupFile() {},
    async savePicture() {},
  };
}

/** Opens another setup and offers the way back, because its history does not reach behind the change. */
export function openSetup(setup: Setup, options: { readonly readOnlyReason?: string } = {}): boolean {
  const before = documentStore.getState();
  const opened = documentStore.load(setup, options);
  if (!opened.ok) {
    showNotice({ tone: 'trouble', text: opened.error[0]?.message ?? 'That setup cannot be opened.' });
    return false;
  }
  showNotice({
    tone: 'done',
    text: `Opened ${setup.title}.`,
    action: {
      label: `Back to ${before.setup.title}`,
      run: () => documentStore.load(before.setup, readOnlyOf(before.readOnlyReason)),
    },
  });
  return true;
}

const readOnlyOf = (readOnlyReason: string | undefined) => (readOnlyReason === undefined ? {} : { readOnlyReason });
