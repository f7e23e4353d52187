import { describe, expect, it } from 'vitest';
import { serializeSetup } from '../../src/document/codec.ts';
import { TABLET, useBrowser } from './helpers/appPage.ts';
import { holdFiles, readSetup, waitForChecks } from './helpers/workbench.ts';

const { open } = useBrowser({ trace: false });

describe('a file that is no setup', () => {
  it('brings one message that says what to mend, and leaves the open setup and its history as they were', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForChecks(page);
    await holdFiles(page);
    await page.getByTestId('setup-title').fill('Kept');
    await page.keyboard.press('Enter');
    const kept = await readSetup(page);
    const text = serializeSetup(kept);

    const bad = [
      { name: 'cut.json', content: text.slice(0, 200), says: 'not well-formed JSON' },
      { name: 'negative.json', content: text.replace(/"value": [\d.]+/, '"value": -5'), says: 'output.value' },
      { name: 'other.json', content: '{"format": "something"}', says: 'not a Keyglass setup' },
      {
        name: 'newer.json',
        content: text.replace('"formatVersion": 1', '"formatVersion": "x"'),
        says: 'formatVersion',
      },
    ];
    for (const { name, content, says } of bad) {
      const choosing = page.waitForEvent('filechooser');
      await page.getByRole('button', { name: 'Open', exact: true }).click();
      await (await choosing).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
      await expect.poll(() => page.getByTestId('notice').textContent(), { message: name }).toContain(says);
      expect(await page.getByTestId('notice').count()).toBe(1);
      expect(await readSetup(page)).toEqual(kept);
    }
    await shoot('bad-file');

    await page.getByTestId('notice').getByRole('button', { name: 'Put away' }).click();
    expect(await page.getByTestId('notice').count()).toBe(0);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await readSetup(page)).title).not.toBe('Kept');
    expect(problems).toEqual([]);
    await close();
  });
});
