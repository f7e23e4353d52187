import { documentStore } from '../views/session/index.ts';
import { FIRST_DEMO, loadDemo } from './demos.ts';

/** `?demo=NAME` opens that demo; else what was last worked on; on a first visit the first demo. */
export async function openFirstSetup(): Promise<void> {
  const wanted = new URLSearchParams(window.location.search).get('demo');
  const setup = await loadDemo(wanted ?? FIRST_DEMO);
  if (setup) documentStore.load(setup);
}
