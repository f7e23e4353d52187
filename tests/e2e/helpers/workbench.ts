import type { Page } from 'playwright';
import type { Finding } from '../../../src/analysis/contracts.ts';
import type { Setup } from '../../../src/document/setup.ts';

/** Takes the file pickers away, so that files go by field and download, which a test can hold. */
export const holdFiles = (page: Page): Promise<void> =>
  page.evaluate(() => {
    Reflect.deleteProperty(window, 'showOpenFilePicker');
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });

export const readSetup = (page: Page): Promise<Setup> =>
  page.evaluate(() => {
    if (!window.__keyglass) throw new Error('the app is not up');
    return window.__keyglass.document().setup;
  });

export const readFindings = (page: Page): Promise<readonly Finding[]> =>
  page.evaluate(() => [...(window.__keyglass?.results().findings ?? [])]);

export const readTrace = (page: Page): Promise<{ phase: string; samples: number; tracesStarted: number }> =>
  page.evaluate(() => {
    if (!window.__keyglass) throw new Error('the app is not up');
    return window.__keyglass.trace();
  });

/** Until the checks have spoken of the setup as it stands now. */
export async function waitForChecks(page: Page): Promise<void> {
  // A change is sent on in the same task in which it is made, so it counts as being checked by the time this looks.
  await page.waitForFunction(() => {
    const results = window.__keyglass?.results();
    return results?.hasResults === true && !results.checking;
  });
}

export async function waitForSamples(page: Page, samples: number): Promise<void> {
  await page.waitForFunction((wanted) => (window.__keyglass?.trace().samples ?? 0) >= wanted, samples, {
    timeout: 150_000,
  });
}

/** Mean of the R, G and B codes of the traced canvas, 0..255. */
export const readMeanBrightness = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="traced"]');
    const context = canvas?.getContext('2d');
    if (!canvas || !context) throw new Error('there is no traced canvas');
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let sum = 0;
    for (let i = 0; i < data.length; i += 4) sum += data[i] + data[i + 1] + data[i + 2];
    return sum / (data.length / 4) / 3;
  });
