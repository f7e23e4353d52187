import { parseSetup } from '../document/codec.ts';
import type { Setup } from '../document/setup.ts';
import type { DemoEntry } from '../views/session/index.ts';

/** Files of the demo setups, each fetched only when it is opened. */
const FILES = import.meta.glob<string>('../../assets/setups/*.json', { query: '?raw', import: 'default' });

/** What the menu says of each demo before its file is read. */
const WORDS: Readonly<Record<string, { readonly title: string; readonly frames: string }>> = {
  'tonic-on-gloss-black': { title: 'Tonic on gloss black', frames: 'wide, rotating close-up' },
  'iced-tea-on-paper-sweep': { title: 'Iced tea on paper sweep', frames: 'even background, all sharp' },
  'hard-noon-slatted-wall': { title: 'Hard noon, slatted wall', frames: 'one long shadow, graded wall' },
  'blue-hour-lantern': { title: 'Blue hour, lantern', frames: 'practical, doorway of light' },
  'reed-screen-and-bounce': { title: 'Reed screen and bounce', frames: 'crisp stripes, card fill' },
};
const WRONG_ENDING = '-wrong';

export const FIRST_DEMO = 'tonic-on-gloss-black';

const nameFromPath = (path: string): string => path.replace(/^.*\//, '').replace(/\.json$/, '');

/** Each right setup, followed by the same one as it goes wrong. */
export const DEMOS: readonly DemoEntry[] = Object.keys(FILES)
  .map(nameFromPath)
  .sort()
  .map((name) => {
    const wrong = name.endsWith(WRONG_ENDING);
    const words = WORDS[wrong ? name.slice(0, -WRONG_ENDING.length) : name];
    return { name, wrong, title: words?.title ?? name.replaceAll('-', ' '), frames: words?.frames ?? '' };
  });

/** @returns null when there is no demo of that name. */
export async function loadDemo(name: string): Promise<Setup | null> {
  const entry = Object.entries(FILES).find(([path]) => nameFromPath(path) === name);
  if (!entry) return null;
  const parsed = parseSetup(await entry[1]());
  if (!parsed.ok) throw new Error(`The demo "${name}" is not a valid setup.`);
  return parsed.value.setup;
}
