import { describe, expect, it } from 'vitest';
import { DESKTOP, useBrowser } from './helpers/appPage.ts';
import { readFindings, readSetup, waitForChecks, waitForSamples } from './helpers/workbench.ts';

const { open } = useBrowser({ offline: true });

describe('the app without a network, after it was open once', () => {
  it('opens, checks, traces, and opens a demo that was never fetched before', async () => {
    const { page, problems, close } = await open(DESKTOP);
    await waitForChecks(page);
    // `ready` is there once every file of the program is kept.
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.context().setOffline(true);
    await page.reload();
    expect(await page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
    await waitForChecks(page);
    await waitForSamples(page, 1);
    await page.goto(new URL('?demo=blue-hour-lantern-wrong', page.url()).href);
    await waitForChecks(page);
    expect((await readSetup(page)).frames.length).toBeGreaterThan(0);
    expect((await readFindings(page)).some(({ check }) => check === 'practical')).toBe(true);
    expect(problems).toEqual([]);
    await close();
  }, 300_000);

  it('can be installed: a manifest with a name, a start and icons that are there', async () => {
    const { page, close } = await open(DESKTOP);
    const manifest = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>('link[rel="manifest"]');
      const found = await (await fetch(link?.href ?? '')).json();
      const sizes = await Promise.all(
        found.icons.map(async ({ src, type }: { src: string; type: string }) => {
          const blob = await (await fetch(new URL(src, link?.href))).blob();
          return { isOfType: blob.type === type, widthPx: (await createImageBitmap(blob).catch(() => null))?.width };
        }),
      );
      return { ...found, sizes };
    });
    expect(manifest.name).toBe('Keyglass');
    expect(manifest.display).toBe('standalone');
    expect(manifest.sizes.every(({ isOfType }: { isOfType: boolean }) => isOfType)).toBe(true);
    expect(manifest.sizes.slice(1).map(({ widthPx }: { widthPx: number }) => widthPx)).toEqual([192, 512]);
    await close();
  });
});
