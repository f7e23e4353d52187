import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { DESKTOP, PHONE, TABLET, useBrowser } from './helpers/appPage.ts';
import { dropPicture } from './helpers/dropPicture.ts';
import { readSetup, waitForChecks } from './helpers/workbench.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** A square of 20 mm, drawn in millimetres: a body with open edges, about which the dialog has something to say. */
const SQUARE_GLTF = (() => {
  const corners = new Float32Array([0, 0, 0, 20, 0, 0, 20, 20, 0, 0, 0, 0, 20, 20, 0, 0, 20, 0]);
  const base64 = Buffer.from(corners.buffer).toString('base64');
  return JSON.stringify({
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0 }],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 } }] }],
    accessors: [{ bufferView: 0, componentType: 5126, count: 6, type: 'VEC3', min: [0, 0, 0], max: [20, 20, 0] }],
    bufferViews: [{ buffer: 0, byteLength: 72 }],
    buffers: [{ byteLength: 72, uri: `data:application/octet-stream;base64,${base64}` }],
  });
})();

/**
 * Serious and critical faults by the rules of axe-core for WCAG 2.0 to 2.2, levels A and AA: each rule with the places
 * that break it. Where a dialog or a menu is open, what lies under it is out of reach and is not looked at again.
 */
async function readFaults(page: Page): Promise<string[]> {
  const results = await page.evaluate(
    () =>
      (window as unknown as { axe: { run(where: Element, options: object): Promise<AxeResults> } }).axe.run(
        [...document.querySelectorAll('[role="dialog"], [role="menu"]')].at(-1) ?? document.documentElement,
        {
          runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
          resultTypes: ['violations'],
        },
      ) as Promise<AxeResults>,
  );
  return results.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id}: ${target} ${failureSummary}`));
}

/** Lets go of a dialog or menu and waits until it is gone. */
async function putAway(page: Page): Promise<void> {
  await page.keyboard.press('Escape');
  await page.locator('[role="dialog"], [role="menu"]').first().waitFor({ state: 'detached' });
}

describe.each(['dim', 'bright'] as const)('the %s room', (room) => {
  const { open } = useBrowser({ trace: false, stored: { 'keyglass:comfort': JSON.stringify({ room }) } });

  it('has no serious fault in the start sheet, at the desk monitor, on a tablet, on a phone, in tools, menus and dialogs', async () => {
    const { page, problems, shoot, close } = await open(DESKTOP, '?demo=tonic-on-gloss-black-wrong');
    await page.waitForFunction((value) => document.documentElement.dataset.room === value, room);
    await page.evaluate(AXE);
    const faults: string[] = [];
    const look = async (where: string) => {
      for (const fault of await readFaults(page)) faults.push(`${where}: ${fault}`);
    };
    const dialog = async (where: string, isUp: string) => {
      await page.getByTestId(isUp).waitFor();
      await look(where);
      await putAway(page);
    };
    await waitForChecks(page);

    // The workbench with a light selected and a finding open.
    await page.getByTestId('finding').first().getByRole('button').first().press('Enter');
    await page.locator('svg [data-record-id="fixture:panel"]').first().press('Enter');
    expect((await readSetup(page)).fixtures[0].id).toBe('fixture:panel');
    await page.getByTestId('inspector').getByText('Panel', { exact: false }).first().waitFor();
    await look('workbench');
    await shoot(`room-${room}`);

    // What lies over the window.
    await page.keyboard.press('?');
    await page.getByRole('dialog').waitFor();
    await look('keys');
    await putAway(page);
    await page.keyboard.press('a');
    await dialog('shelf', 'shelf');
    await page.keyboard.press('Control+k');
    await dialog('search', 'search');
    await page.getByRole('button', { name: 'Room', exact: true }).press('Enter');
    await page.getByRole('menu').waitFor();
    await look('room');
    await putAway(page);
    await page.getByTestId('frame-menu').press('Enter');
    await page.getByRole('menu').waitFor();
    await look('frames');
    await putAway(page);

    // Handing over.
    const handOver = page.getByRole('button', { name: 'Hand over' });
    await handOver.press('Enter');
    await dialog('hand over', 'hand-over');
    await handOver.press('Enter');
    await page.getByText('Picture of this frame').dispatchEvent('click');
    await dialog('picture of this frame', 'traced-start');
    await handOver.press('Enter');
    await page.getByText('Match a meter').dispatchEvent('click');
    await dialog('meter match', 'meter-subject-dome-fixture:panel');

    // Bringing in a body from a file.
    const choosing = page.waitForEvent('filechooser');
    await page.keyboard.press('a');
    await page.getByTestId('shelf').getByText('From a file').dispatchEvent('click');
    await (await choosing).setFiles({
      name: 'square.gltf',
      mimeType: 'model/gltf+json',
      buffer: Buffer.from(SQUARE_GLTF),
    });
    await dialog('bring in', 'bring-in');

    // The tools of the frame with their options; stops; a reference beside the frame.
    const options = page.getByTestId('tool-options');
    for (const key of ['z', 'c', 'u', 't', 'f']) {
      await page.keyboard.press(key);
      if (key !== 'f') await options.waitFor();
      await look(`tool ${key}`);
      await page.keyboard.press(key);
    }
    await dropPicture(page, 'mood.png', 600, 400);
    await page.getByTestId('reference').locator('img').waitFor();
    await look('reference');
    await page.keyboard.press('Control+z');

    // How a setup begins.
    await page.getByTestId('open-start').press('Enter');
    await page.getByTestId('start').waitFor();
    await look('start');
    await page.getByTestId('start-brief').press('Enter');
    await page.getByText('Set it up').waitFor();
    await look('brief');
    await putAway(page);

    // Less room: the same things under tabs.
    for (const [name, size] of Object.entries({ tablet: TABLET, phone: PHONE })) {
      await page.setViewportSize({ width: size.widthPx, height: size.heightPx });
      await page.reload();
      await waitForChecks(page);
      await page.evaluate(AXE);
      for (const tab of ['Set', 'Checks', 'Inspector', 'Light desk']) {
        await page.getByRole('tab', { name: tab, exact: true }).dispatchEvent('click');
        await look(`${name}, ${tab}`);
      }
    }
    expect(faults).toEqual([]);
    expect(problems).toEqual([]);
    await close();
  }, 300_000);
});
