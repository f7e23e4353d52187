import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { DESKTOP, TABLET, useBrowser } from './helpers/appPage.ts';
import { readMeanBrightness, readSetup, waitForChecks, waitForSamples } from './helpers/workbench.ts';

const { open } = useBrowser();

const readSelected = (page: Page): Promise<string | null> =>
  page.evaluate(() => window.__keyglass?.session().selectedId ?? null);

describe('selection', () => {
  it('is one for the frame, the desk, the drawing and the inspector', async () => {
    const { page, problems, close } = await open(DESKTOP, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    const setup = await readSetup(page);
    const hero = setup.pieces.find(({ id }) => id === setup.subject.pieceId);
    const title = page.getByTestId('inspector').getByLabel('Name');

    // The hero stands left of the middle of the picture.
    const picture = await page.getByTestId('picture').boundingBox();
    if (!picture) throw new Error('there is no picture');
    await page.mouse.click(picture.x + picture.width * 0.37, picture.y + picture.height * 0.45);
    expect(await readSelected(page)).toBe(hero?.id);
    await expect.poll(() => title.inputValue()).toBe(hero?.name);

    await page.getByTestId('desk-strip').first().getByRole('button').first().click();
    expect(await readSelected(page)).toBe(setup.fixtures[0].id);
    await expect.poll(() => title.inputValue()).toBe(setup.fixtures[0].name);
    const drawn = page.locator(`svg [data-record-id="${setup.fixtures[0].id}"]`).first();
    expect(await drawn.getAttribute('aria-pressed')).toBe('true');

    await page.keyboard.press('Escape');
    expect(await readSelected(page)).toBeNull();
    expect(problems).toEqual([]);
    await close();
  });

  it('is nudged by keys: 1 cm, 10 cm with Shift, up with Alt, and each step is taken back by itself', async () => {
    const { page, problems, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    const before = await readSetup(page);
    const [x, y, z] = before.fixtures[0].positionM;
    const position = async () => (await readSetup(page)).fixtures[0].positionM;
    await page.getByTestId('desk-strip').first().getByRole('button').first().click();

    await page.keyboard.press('ArrowRight');
    expect((await position())[0]).toBeCloseTo(x + 0.01, 9);
    await page.keyboard.press('Shift+ArrowUp');
    expect((await position())[2]).toBeCloseTo(z - 0.1, 9);
    await page.keyboard.press('Alt+ArrowUp');
    expect((await position())[1]).toBeCloseTo(y + 0.01, 9);
    // Also with the focus on a fader, which keeps only its own keys.
    await page.getByTestId('fader').first().focus();
    await page.keyboard.press('m');
    expect((await readSetup(page)).fixtures[0].on).toBe(false);
    for (let step = 0; step < 4; step++) await page.keyboard.press('Control+z');
    expect(await readSetup(page)).toEqual(before);
    expect(problems).toEqual([]);
    await close();
  });

  it('edits the selected light in the inspector, by command, and follows undo', async () => {
    const { page, problems, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    await page.getByTestId('desk-strip').first().getByRole('button').first().click();
    await page.getByRole('tab', { name: 'Inspector' }).click();
    const width = page.locator('[id="Face.widthM"]');
    await expect.poll(() => width.inputValue()).toMatch(/^\d/);
    const before = await readSetup(page);
    const shown = await width.inputValue();
    await width.fill('42');
    await width.press('Enter');
    await width.blur();
    expect((await readSetup(page)).fixtures[0]).toMatchObject({ widthM: 0.42 });
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await readSetup(page)).toEqual(before);
    await expect.poll(() => width.inputValue()).toBe(shown);
    // Looking at a field is no edit.
    await width.focus();
    await width.blur();
    expect(await readSetup(page)).toEqual(before);
    expect(problems).toEqual([]);
    await close();
  });
});

describe('the picture', () => {
  it('turns to stops and back with F, on the same film', async () => {
    const { page, problems, close } = await open(TABLET, '?demo=tonic-on-gloss-black-wrong');
    await waitForChecks(page);
    await waitForSamples(page, 1);
    const key = page.getByRole('list', { name: 'Stops from middle' });
    expect(await key.count()).toBe(0);
    const picture = await readMeanBrightness(page);
    await page.keyboard.press('f');
    await expect.poll(() => key.count()).toBe(1);
    await expect.poll(async () => Math.abs((await readMeanBrightness(page)) - picture)).toBeGreaterThan(1);
    await page.keyboard.press('f');
    await expect.poll(() => key.count()).toBe(0);
    expect(problems).toEqual([]);
    await close();
  });
});
