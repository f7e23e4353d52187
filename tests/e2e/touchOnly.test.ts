import type { Locator, Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { TABLET, useBrowser } from './helpers/appPage.ts';
import { readSetup, waitForChecks } from './helpers/workbench.ts';

const { open } = useBrowser({ touch: true, trace: false });

/** One finger down on the middle of something, moved by so many pixels, and up. */
async function drag(page: Page, what: Locator, byPx: readonly [number, number]): Promise<void> {
  const box = await what.boundingBox();
  if (!box) throw new Error(`${what} is not on the screen`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const session = await page.context().newCDPSession(page);
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints });
  await send('touchStart', [{ x, y }]);
  for (let step = 1; step <= 5; step++)
    await send('touchMove', [{ x: x + (byPx[0] * step) / 5, y: y + (byPx[1] * step) / 5 }]);
  await send('touchEnd', []);
  await session.detach();
}

describe('a tablet without mouse or keys', () => {
  it('moves a light on the plan, opens a finding, dims and takes a glass from the shelf, by taps and drags', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black-wrong');
    await page.evaluate(() => {
      const others: string[] = [];
      Object.assign(window, { others });
      window.addEventListener(
        'pointerdown',
        ({ pointerType }) => pointerType !== 'touch' && others.push(pointerType),
        true,
      );
    });
    await waitForChecks(page);
    const before = await readSetup(page);

    // On the plan: as far as the finger goes, at its height, and one step back.
    await drag(page, page.locator('svg [data-record-id="fixture:panel"]').first(), [-40, 20]);
    const [[x0, y0, z0], [x1, y1, z1]] = [before, await readSetup(page)].map(({ fixtures }) => fixtures[0].positionM);
    expect(x1).toBeLessThan(x0 - 0.05);
    expect(z1).toBeGreaterThan(z0 + 0.02);
    expect(y1).toBe(y0);
    await page.getByRole('button', { name: 'Undo' }).tap();
    expect(await readSetup(page)).toEqual(before);

    // A finding, from its mark in the picture to its line; then its first remedy.
    await waitForChecks(page);
    await page.getByRole('tab', { name: 'Checks', exact: true }).tap();
    const row = page.getByTestId('finding').first();
    await row.getByRole('button').first().tap();
    expect(await row.getAttribute('data-open')).toBe('true');
    await row.getByTestId('remedy').first().tap();
    expect(await readSetup(page)).not.toEqual(before);
    await shoot('touch-finding');

    // The fader's bar, downward: darker.
    await page.getByRole('tab', { name: 'Light desk', exact: true }).tap();
    const { dimStops } = (await readSetup(page)).fixtures[0];
    await drag(page, page.getByTestId('desk-strip').first().locator('.kg-fader-bar'), [0, 40]);
    expect((await readSetup(page)).fixtures[0].dimStops).toBeLessThan(dimStops - 0.5);

    // The shelf opens from the desk; another room of it has the glasses.
    await page.getByRole('button', { name: 'Add a light' }).first().tap();
    const shelf = page.getByTestId('shelf');
    await shelf.getByRole('button', { name: 'Glasses', exact: true }).tap();
    await shoot('touch-shelf');
    const { pieces } = await readSetup(page);
    await shelf.getByRole('option').first().tap();
    await shelf.waitFor({ state: 'hidden' });
    const after = (await readSetup(page)).pieces;
    expect(after.filter(({ kind }) => kind === 'glass').length).toBeGreaterThan(
      pieces.filter(({ kind }) => kind === 'glass').length,
    );
    expect(await page.evaluate(() => Reflect.get(window, 'others'))).toEqual([]);
    expect(problems).toEqual([]);
    await close();
  });
});
