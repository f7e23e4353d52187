import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { DESKTOP, useBrowser } from './helpers/appPage.ts';
import { readFindings, readSetup, waitForChecks, waitForSamples } from './helpers/workbench.ts';

const { open } = useBrowser();

/** Takes something from the shelf by its name, with the keyboard alone. */
async function take(page: Page, name: string): Promise<void> {
  const field = page.getByLabel('Find on the shelf');
  // A dialog that is just closing still has the keys.
  await expect
    .poll(
      async () => {
        if (!(await field.isVisible())) await page.keyboard.press('a');
        return field.isVisible();
      },
      { timeout: 60_000, interval: 500 },
    )
    .toBe(true);
  await field.fill(name);
  await page.keyboard.press('Enter');
  await page.getByTestId('shelf').waitFor({ state: 'hidden' });
}

describe('the whole job from an empty table', () => {
  it('is built, lit, checked, put right, named and handed over', async () => {
    const { page, problems, shoot, close } = await open(DESKTOP, '?');
    await page.getByTestId('start').waitFor();
    await shoot('start');
    await page.getByTestId('start-empty').click();
    await page.getByTestId('start').waitFor({ state: 'hidden' });
    expect((await readSetup(page)).fixtures).toEqual([]);

    // The first glass takes the place of the stand-in; the drink goes into it; the surface onto the table.
    await take(page, 'Highball');
    const withGlass = await readSetup(page);
    const hero = withGlass.pieces.find(({ id }) => id === withGlass.subject.pieceId);
    expect(hero?.kind).toBe('glass');
    expect(withGlass.pieces.some(({ name }) => name === 'Stand-in')).toBe(false);
    await take(page, 'Hibiscus');
    await take(page, 'Dark walnut');
    await take(page, 'Wall, limewash');
    await take(page, 'Softbox 90');
    const dressed = await readSetup(page);
    const poured = dressed.pieces.find(({ id }) => id === dressed.subject.pieceId);
    expect(poured?.kind === 'glass' && poured.drink?.name).toContain('Hibiscus');
    expect(dressed.pieces.map(({ kind }) => kind).sort()).toEqual(['glass', 'tabletop', 'wall']);
    expect(dressed.fixtures).toHaveLength(1);
    await waitForChecks(page);

    // The light is dragged on the plan; it keeps its height.
    const lamp = page.locator(`svg [data-record-id="${dressed.fixtures[0].id}"]`).first();
    const box = await lamp.boundingBox();
    if (!box) throw new Error('the light is drawn');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 20, y + 30, { steps: 4 });
    await page.mouse.up();
    const moved = (await readSetup(page)).fixtures[0].positionM;
    expect(moved[1]).toBe(dressed.fixtures[0].positionM[1]);
    expect(moved[0]).not.toBe(dressed.fixtures[0].positionM[0]);

    // The checks are read, and one remedy is applied.
    await waitForChecks(page);
    const finding = (await readFindings(page)).find(({ grade, remedies }) => remedies.length > 0 && grade !== 'ok');
    if (!finding) throw new Error('a bare softbox leaves something to mend');
    const row = page.locator(`[data-testid="finding"][data-finding="${finding.id}"]`);
    await row.getByRole('button').first().click();
    const before = await readSetup(page);
    await row.getByTestId('remedy').first().click();
    expect(await readSetup(page)).not.toEqual(before);
    await waitForChecks(page);

    // The frame is named where it stands.
    await page.getByRole('button', { name: 'Frame 1', exact: true }).dblclick();
    await page.getByTestId('frame-name').fill('Menu, page one');
    await page.keyboard.press('Enter');
    expect((await readSetup(page)).frames[0].name).toBe('Menu, page one');

    // A page for the client, with the picture as far as it is traced.
    await waitForSamples(page, 1);
    await shoot('from-an-empty-table');
    const downloading = page.waitForEvent('download', { timeout: 300_000 });
    await page.getByRole('button', { name: 'Hand over' }).click();
    await page.getByRole('menuitem', { name: 'Page with this picture' }).click();
    expect((await downloading).suggestedFilename()).toMatch(/\.html$/);

    // It is among the setups of this browser, and comes back after a reload.
    const settled = await readSetup(page);
    await page.reload();
    await waitForChecks(page);
    expect(await readSetup(page)).toEqual(settled);
    await page.getByTestId('open-start').click();
    await expect.poll(() => page.getByTestId('kept-setup').count()).toBe(1);
    await page.getByTestId('kept-setup').getByRole('button', { name: 'Duplicate' }).click();
    await expect.poll(() => page.getByTestId('kept-setup').count()).toBe(2);
    const copy = page.getByTestId('kept-setup').filter({ hasText: 'copy' });
    await copy.getByRole('button', { name: 'Remove' }).click();
    await expect.poll(() => page.getByTestId('kept-setup').count()).toBe(1);
    expect(problems).toEqual([]);
    await close();
    // Beside other work a client's page, smoothed and written, can take minutes.
  }, 720_000);
});

describe('several things at once', () => {
  it('are selected with Shift, grouped, locked, moved as one and taken back', async () => {
    const { page, problems, close } = await open(DESKTOP, '?demo=iced-tea-on-paper-sweep');
    await page.getByTestId('inspector').waitFor();
    await page.locator('svg [data-record-id]').first().waitFor();
    const before = await readSetup(page);
    const selected = () => page.evaluate(() => [...(window.__keyglass?.session().selectedIds ?? [])]);
    const entry = (name: string) => page.getByTestId('inspector').getByRole('button', { name, exact: true });
    const [first, second] = before.fixtures;

    await entry(first.name).click();
    await page.locator(`svg [data-record-id="${second.id}"]`).first().focus();
    await page.keyboard.press('Shift+Enter');
    expect(await selected()).toEqual([first.id, second.id]);
    await page.getByTestId('arrange').waitFor();

    await page.keyboard.press('Control+g');
    expect((await readSetup(page)).arrangement?.groups[0].ids).toEqual([first.id, second.id]);
    await page.keyboard.press('ArrowRight');
    const moved = await readSetup(page);
    for (const [i, fixture] of [first, second].entries()) {
      expect(moved.fixtures[i].positionM[0]).toBeCloseTo(fixture.positionM[0] + 0.01, 9);
      expect(moved.fixtures[i].aimM[0]).toBeCloseTo(fixture.aimM[0] + 0.01, 9);
    }
    await page.keyboard.press('l');
    const locked = await readSetup(page);
    await page.keyboard.press('ArrowRight');
    expect(await readSetup(page)).toEqual(locked);
    for (let step = 0; step < 3; step++) await page.keyboard.press('Control+z');
    expect(await readSetup(page)).toEqual(before);

    // Anything is found by its words.
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    await page.getByTestId('search').getByRole('combobox').fill('new frame');
    await page.keyboard.press('Enter');
    expect((await readSetup(page)).frames).toHaveLength(before.frames.length + 1);
    expect(problems).toEqual([]);
    await close();
  }, 240_000);
});
