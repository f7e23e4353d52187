import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { DESKTOP, TABLET, useBrowser } from './helpers/appPage.ts';
import { waitForChecks } from './helpers/workbench.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const { open } = useBrowser();

/**
 * Serious and critical faults by the rules of axe-core for WCAG 2.0 to 2.2, levels A and AA: each rule with the places
 * that break it.
 */
async function readFaults(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const results = await page.evaluate(
    () =>
      (window as unknown as { axe: { run(options: object): Promise<AxeResults> } }).axe.run({
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
        resultTypes: ['violations'],
      }) as Promise<AxeResults>,
  );
  return results.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id}: ${target} ${failureSummary}`));
}

describe.each(['dim', 'bright'] as const)('the %s room', (room) => {
  it('has no serious fault: at the desk monitor, with a light selected and a finding open, in menus and dialogs', async () => {
    const { page, problems, shoot, close } = await open(DESKTOP, '?demo=tonic-on-gloss-black-wrong');
    await setRoom(page, room);
    await waitForChecks(page);
    expect(await readFaults(page)).toEqual([]);
    await page.getByTestId('finding').first().getByRole('button').first().click();
    await page.locator('svg [data-record-id="fixture:panel"]').first().click();
    await page.getByTestId('inspector').getByText('Panel', { exact: false }).first().waitFor();
    expect(await readFaults(page)).toEqual([]);
    await shoot(`room-${room}`);
    await page.keyboard.press('Escape');
    await page.keyboard.press('?');
    await page.getByRole('dialog').waitFor();
    expect(await readFaults(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('a');
    await page.getByRole('dialog').waitFor();
    expect(await readFaults(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Room', exact: true }).click();
    await page.getByRole('menu').waitFor();
    expect(await readFaults(page)).toEqual([]);
    expect(problems).toEqual([]);
    await close();
  }, 300_000);

  it('has no serious fault on a tablet, tab by tab', async () => {
    const { page, close } = await open(TABLET);
    await setRoom(page, room);
    await waitForChecks(page);
    for (const tab of ['Set', 'Checks', 'Inspector']) {
      await page.getByRole('tab', { name: tab, exact: true }).click();
      expect(await readFaults(page)).toEqual([]);
    }
    await close();
  }, 300_000);
});

async function setRoom(page: Page, room: 'dim' | 'bright'): Promise<void> {
  await page.evaluate((value) => {
    localStorage.setItem('keyglass:comfort', JSON.stringify({ room: value }));
  }, room);
  await page.reload();
  await page.waitForFunction((value) => document.documentElement.dataset.room === value, room);
}
