import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { TABLET, useBrowser } from './helpers/appPage.ts';
import { dropPicture } from './helpers/dropPicture.ts';
import { readMeanBrightness, readSetup, readTrace, waitForChecks, waitForSamples } from './helpers/workbench.ts';

const { open } = useBrowser();

/** Part of an overlay that is not clear. */
const veiledShare = (page: Page, testId: string): Promise<number> =>
  page.evaluate((id) => {
    const canvas = document.querySelector<HTMLCanvasElement>(`[data-testid="${id}"]`);
    const context = canvas?.getContext('2d');
    if (!canvas || !context || canvas.width === 0) return 0;
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let veiled = 0;
    for (let i = 3; i < data.length; i += 4) if (data[i] > 0) veiled++;
    return veiled / (data.length / 4);
  }, testId);

const readSoloIds = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => [...(window.__keyglass?.session().soloFixtureIds ?? [])]);

describe('the tools of the frame', () => {
  it('veil, crop, meter, compare, build up and turn, each by its key, and leave the set as it was', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    await waitForSamples(page, 1);
    const before = await readSetup(page);
    const options = page.getByTestId('tool-options');
    const picture = await page.getByTestId('picture').boundingBox();
    if (!picture) throw new Error('there is no picture');

    // Sharpness: part of the frame is sharp, part is not.
    await page.keyboard.press('z');
    await expect.poll(() => veiledShare(page, 'sharp-zone')).toBeGreaterThan(0.05);
    expect(await veiledShare(page, 'sharp-zone')).toBeLessThan(0.98);
    expect(await options.textContent()).toContain('Sharp from');
    await page.keyboard.press('z');

    // Crop: kept with the frame, taken back by undo.
    await page.keyboard.press('c');
    await page.getByRole('button', { name: '4:5', exact: true }).click();
    await page.getByRole('button', { name: 'Safe areas' }).click();
    expect((await readSetup(page)).frames[0].delivery).toEqual({ crops: ['4:5'], safeAreas: true });
    expect(await page.getByTestId('crop').count()).toBe(1);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    expect(await readSetup(page)).toEqual(before);
    await page.keyboard.press('c');

    // Loupe and meter: the table top before the hero is matte or gloss, but no light.
    await page.keyboard.press('o');
    await page.mouse.move(picture.x + picture.width * 0.8, picture.y + picture.height * 0.9);
    await expect.poll(() => page.getByTestId('loupe').textContent()).toContain('cd/m');
    await expect.poll(() => page.getByTestId('spot-lux').textContent()).toMatch(/\d.*lx direct/);
    await shoot('tools-loupe');
    await page.keyboard.press('o');

    // Spill: no layer has the whole of the light everywhere, and the meter says whose the spot is.
    await page.keyboard.press('p');
    await expect.poll(() => page.getByTestId('spot-spill').textContent()).toContain(before.fixtures[0].name);
    await page.keyboard.press('p');

    // Build-up: one light, then two, on the same film.
    const { tracesStarted } = await readTrace(page);
    const whole = await readMeanBrightness(page);
    await page.keyboard.press('u');
    expect(await readSoloIds(page)).toHaveLength(1);
    await expect.poll(() => readMeanBrightness(page)).toBeLessThan(whole);
    const one = await readMeanBrightness(page);
    await page.keyboard.press(']');
    expect(await readSoloIds(page)).toHaveLength(2);
    await expect.poll(() => readMeanBrightness(page)).toBeGreaterThan(one);
    await page.keyboard.press('u');
    expect(await readSoloIds(page)).toEqual([]);
    expect((await readTrace(page)).tracesStarted).toBe(tracesStarted);

    // Before and now: the kept picture stays as it was while the desk goes down.
    await page.keyboard.press('b');
    const split = page.getByTestId('split');
    await split.focus();
    await page.keyboard.press('ArrowLeft');
    expect(await split.getAttribute('aria-valuenow')).toBe('48');
    const bright = await readMeanBrightness(page);
    await page.getByTestId('fader').first().focus();
    await page.keyboard.press('PageDown');
    await expect.poll(() => readMeanBrightness(page)).toBeLessThan(bright);
    expect(await page.getByTestId('kept').count()).toBe(1);
    await shoot('tools-before');
    await page.keyboard.press('Control+z');
    await page.keyboard.press('b');

    // The turn: one degree by key, one step back.
    await page.keyboard.press('t');
    await page.getByTestId('turn-slider').focus();
    await page.keyboard.press('ArrowRight');
    expect((await readSetup(page)).frames[0].turntableAngleDeg).toBe(before.frames[0].turntableAngleDeg + 1);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('t');
    expect(await options.count()).toBe(0);
    expect(await readSetup(page)).toEqual(before);
    expect(problems).toEqual([]);
    await close();
    // Without a graphics card and beside other work, tracing and drawing share a core or two.
  }, 480_000);
});

describe('a reference photo', () => {
  it('is dropped, kept in the setup, shown with its colours, and a broken one brings one clear message', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    await dropPicture(page, 'mood.png', 2400, 1600);
    await page.getByTestId('reference').locator('img').waitFor();
    const { reference } = (await readSetup(page)).frames[0];
    expect(reference).toMatchObject({ name: 'mood.png', widthPx: 1600, heightPx: 1067 });
    expect(reference?.dataUrl.length).toBeLessThan(700_000);
    await expect.poll(() => page.getByTestId('palette').first().locator('span').count()).toBeGreaterThanOrEqual(2);
    await shoot('reference-beside');

    await page.getByRole('button', { name: 'Over', exact: true }).click();
    await page.getByTestId('reference-opacity').focus();
    await page.keyboard.press('Home');
    await expect
      .poll(() => page.getByTestId('reference-over').evaluate((image) => getComputedStyle(image).opacity))
      .toBe('0');
    await page.getByRole('button', { name: 'Split', exact: true }).click();
    expect(await page.getByTestId('split').count()).toBe(1);

    await dropPicture(page, 'broken.png', 0, 0);
    await expect
      .poll(() => page.getByTestId('notice').textContent())
      .toContain('broken.png cannot be read as a picture');
    expect((await readSetup(page)).frames[0].reference).toEqual(reference);

    await page.getByRole('button', { name: 'Take away' }).click();
    expect((await readSetup(page)).frames[0].reference).toBeUndefined();
    await page.keyboard.press('Control+z');
    expect((await readSetup(page)).frames[0].reference).toEqual(reference);
    expect(problems).toEqual([]);
    await close();
    // Without a graphics card and beside other work, tracing and drawing share a core or two.
  }, 480_000);
});
