import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { parseSetup } from '../../src/document/codec.ts';
import { DESKTOP, useBrowser } from './helpers/appPage.ts';
import { holdFiles, readSetup, waitForChecks } from './helpers/workbench.ts';

const { open } = useBrowser({ trace: false });

/** More stops than the whole window has. */
const MOST_STOPS = 300;
/** Beside other work a dialog takes long to come up. */
const POLL = { timeout: 60_000 };

/** Goes from stop to stop until the wanted control has the focus. Fails when no way leads there. */
async function tabTo(page: Page, wanted: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  await wanted.waitFor();
  for (let stop = 0; stop < MOST_STOPS; stop++) {
    await page.keyboard.press(key);
    if (await wanted.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error(`${wanted} is not reached by ${key}`);
}

/** Takes something from the shelf by typing a part of its name. */
async function take(page: Page, name: string): Promise<void> {
  await page.keyboard.press('a');
  const field = page.getByLabel('Find on the shelf');
  await expect.poll(() => field.evaluate((element) => element === document.activeElement), POLL).toBe(true);
  await page.keyboard.type(name);
  await expect.poll(() => field.inputValue(), POLL).toBe(name);
  await page.keyboard.press('Enter');
  await page.getByTestId('shelf').waitFor({ state: 'detached' });
}

describe('the job by keyboard alone', () => {
  it('goes from an empty table to a named, saved frame with a light placed and a finding put right', async () => {
    const { page, problems, close } = await open(DESKTOP, '?');
    await page.evaluate(() => {
      window.addEventListener('pointerdown', () => document.documentElement.setAttribute('data-pressed', ''), true);
    });
    await holdFiles(page);
    await tabTo(page, page.getByTestId('start-empty'));
    await page.keyboard.press('Enter');
    await page.getByTestId('start').waitFor({ state: 'hidden' });
    expect((await readSetup(page)).fixtures).toEqual([]);

    await take(page, 'Highball');
    await take(page, 'Hibiscus');
    await take(page, 'Softbox 90');
    const built = await readSetup(page);
    const hero = built.pieces.find(({ id }) => id === built.subject.pieceId);
    expect(hero?.kind === 'glass' && hero.drink?.name).toContain('Hibiscus');
    expect(built.fixtures).toHaveLength(1);

    // What was added is selected: twice 1 cm to the right, once 10 cm away from the camera.
    for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowUp']) await page.keyboard.press(key);
    const [x, y, z] = built.fixtures[0].positionM;
    const nudged = await readSetup(page);
    expect(nudged.fixtures[0].positionM).toEqual([
      expect.closeTo(x + 0.02, 9),
      expect.closeTo(y, 9),
      expect.closeTo(z - 0.1, 9),
    ]);

    // A finding is opened, read, and its remedy applied and taken back.
    await waitForChecks(page);
    const mendable = await page.evaluate(
      () =>
        window.__keyglass?.results().findings.find(({ grade, remedies }) => remedies.length > 0 && grade !== 'ok')?.id,
    );
    const row = page.locator(`[data-testid="finding"][data-finding="${mendable}"]`);
    await tabTo(page, row.getByRole('button').first());
    await page.keyboard.press('Enter');
    expect(await row.getByRole('button').first().getAttribute('aria-expanded')).toBe('true');
    expect(await row.textContent()).toMatch(/\d/);
    await tabTo(page, row.getByTestId('remedy').first());
    await page.keyboard.press('Enter');
    expect(await readSetup(page)).not.toEqual(nudged);
    await page.keyboard.press('Control+z');
    expect(await readSetup(page)).toEqual(nudged);
    await page.keyboard.press('Control+Shift+Z');
    await waitForChecks(page);

    // The frame gets its name from its menu.
    await tabTo(page, page.getByTestId('frame-menu'), 'Shift+Tab');
    await page.keyboard.press('Enter');
    const rename = page.getByRole('menuitem', { name: 'Rename', exact: true });
    await rename.waitFor();
    while (!(await rename.evaluate((item) => item === document.activeElement))) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByTestId('frame-name').waitFor();
    await page.keyboard.type('Menu, page one');
    await page.keyboard.press('Enter');
    const settled = await readSetup(page);
    expect(settled.frames[0].name).toBe('Menu, page one');

    const downloading = page.waitForEvent('download');
    await page.keyboard.press('Control+s');
    const saved = parseSetup(await readFile(await (await downloading).path(), 'utf8'));
    expect(saved.ok && saved.value.setup).toEqual(settled);
    expect(await page.locator('html[data-pressed]').count()).toBe(0);
    expect(problems).toEqual([]);
    await close();
  });
});
