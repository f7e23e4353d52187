import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { DESKTOP, PHONE, TABLET, useBrowser } from './helpers/appPage.ts';
import { readSetup, waitForChecks } from './helpers/workbench.ts';

const { open } = useBrowser({ trace: false });
const { open: openOnPhone } = useBrowser({ touch: true, trace: false });

/** What sticks out of the window sideways, and controls that are cut off by what holds them. */
const findOverflow = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const out: string[] = [];
    const name = (element: Element) => `${element.tagName} ${element.className} ${element.textContent?.slice(0, 30)}`;
    if (document.documentElement.scrollWidth > window.innerWidth) out.push('the page scrolls sideways');
    for (const element of document.querySelectorAll('button, input, [role="slider"], [data-testid="picture"]')) {
      const box = element.getBoundingClientRect();
      if (box.width === 0 || element.closest('.kg-desk-strips, .kg-top-frames, [aria-hidden="true"]')) continue;
      if (box.right > window.innerWidth + 0.5 || box.left < -0.5) out.push(name(element));
    }
    return out;
  });

/** Fields of the exposure and the desk whose figure is wider than they are: 5600 K must not read 560. */
const findCutFields = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLInputElement>('input.kg-step-input')]
      .filter(({ scrollWidth, clientWidth }) => scrollWidth > clientWidth + 1)
      .map(({ value }) => value),
  );

const pageScrolls = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollHeight > window.innerHeight);

describe('the layout', () => {
  it('fits a tablet of 1024 x 768 with nothing cut off and no scrolling page, in each tab', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black-wrong');
    await waitForChecks(page);
    for (const tab of ['Light desk', 'Checks', 'Inspector', 'Set', 'Drawing']) {
      await page.getByRole('tab', { name: tab, exact: true }).click();
      expect(await findOverflow(page), tab).toEqual([]);
      expect(await pageScrolls(page), tab).toBe(false);
      await shoot(`tablet-${tab.toLowerCase().replace(' ', '-')}`);
    }
    expect(problems).toEqual([]);
    await close();
  });

  it('gives the picture at least 32 % of the area of a 1440 x 900 window, in the shape of its sensor', async () => {
    const { page, problems, close } = await open(DESKTOP, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    const box = await page.getByTestId('picture').boundingBox();
    if (!box) throw new Error('there is no picture');
    const [{ camera }] = (await readSetup(page)).frames;
    expect(box.width * box.height).toBeGreaterThan(0.32 * DESKTOP.widthPx * DESKTOP.heightPx);
    expect(box.width / box.height).toBeCloseTo(camera.sensorWidthMm / camera.sensorHeightMm, 1);
    expect(await findOverflow(page)).toEqual([]);
    expect(await pageScrolls(page)).toBe(false);
    expect(problems).toEqual([]);
    await close();
  });

  it('is one column of 390 px that does not scroll sideways and cuts no figure', async () => {
    const { page, problems, shoot, close } = await openOnPhone(PHONE, '?demo=tonic-on-gloss-black-wrong');
    await waitForChecks(page);
    expect(await findOverflow(page)).toEqual([]);
    expect(await page.locator('input.kg-step-input').count()).toBeGreaterThanOrEqual(4);
    expect(await findCutFields(page)).toEqual([]);
    await shoot('narrow');
    expect(problems).toEqual([]);
    await close();
  });
});
