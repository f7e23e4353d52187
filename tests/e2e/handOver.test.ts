import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { serializeSetup } from '../../src/document/codec.ts';
import type { Setup } from '../../src/document/setup.ts';
import { encodeShareLink } from '../../src/document/shareLink.ts';
import { studioSetup } from '../deliverables/helpers/studioSetup.ts';
import { TABLET, useBrowser } from './helpers/appPage.ts';
import { readFilm } from './helpers/readFilm.ts';
import { holdFiles, readSetup } from './helpers/workbench.ts';

const { open } = useBrowser();

const studio = studioSetup();
const RPM = studio.turntable?.rpm ?? 0;
/** The studio's turn alone, delivered 64 pixels wide, so that it is traced in no time. */
const small: Setup = {
  ...studio,
  title: 'Small turn',
  frames: studio.frames.filter(({ kind }) => kind === 'turn').map((frame) => ({ ...frame, pictureWidthPx: 64 })),
};
const hasProbe = spawnSync('ffprobe', ['-version']).status === 0;

/** By key, as a pointer would wait until nothing on the page moves, which beside a trace can take long. */
const openHandOver = (page: Page) => page.getByRole('button', { name: 'Hand over' }).press('Enter');

describe('hand over', () => {
  it('films one round of the turn into a file that loops: frames and duration by an independent reader', async () => {
    const { page, problems, close } = await open(TABLET);
    await openSetup(page, small);
    await openHandOver(page);
    await page.getByText('Turn of this frame').dispatchEvent('click');
    await page.getByRole('button', { name: '64 delivered' }).dispatchEvent('click');
    await page.getByRole('button', { name: '32 proof' }).dispatchEvent('click');
    await page.getByRole('button', { name: '12', exact: true }).dispatchEvent('click');
    const downloading = page.waitForEvent('download', { timeout: 400_000 });
    await page.getByTestId('traced-start').dispatchEvent('click');
    const download = await downloading;
    const bytes = await readFile(await download.path());
    const name = download.suggestedFilename();
    if (name.endsWith('.zip')) expect(Object.keys(unzipSync(bytes))).toHaveLength(12);
    else {
      // 12 pictures of a round that takes 60 / rpm seconds; the speed is rounded to whole frames of film.
      const roundS = Math.round((60 * 24) / RPM) / 24;
      const film = await readFilm(bytes, name.endsWith('.mp4') ? 'mp4' : 'webm');
      expect(film.frames).toBe(12);
      expect(film.widthPx).toBe(64);
      expect(Math.abs(film.durationS - roundS)).toBeLessThan(0.05);
      if (hasProbe) expect(probe(bytes, name)).toEqual({ frames: 12, width: 64, duration: expect.closeTo(roundS, 1) });
      else console.log('ffprobe is not installed: the film was read by the container reader alone.');
    }
    expect(problems).toEqual([]);
    await close();
  }, 480_000);

  it('stops a trace when asked, and leaves the setup as it is', async () => {
    const { page, problems, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForApp(page);
    const before = await readSetup(page);
    await openHandOver(page);
    await page.getByText('Picture of this frame').dispatchEvent('click');
    await page.getByTestId('traced-start').dispatchEvent('click');
    await page.getByTestId('traced-stop').dispatchEvent('click');
    await page.getByTestId('traced-start').waitFor();
    expect(await readSetup(page)).toEqual(before);
    expect(problems).toEqual([]);
    await close();
  }, 240_000);

  it('matches a meter: every light a stop over gives twice the output, in one step that is undone by one', async () => {
    const { page, problems, shoot, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    await waitForApp(page);
    const before = await readSetup(page);
    await openHandOver(page);
    await page.getByText('Match a meter').dispatchEvent('click');
    for (const { id } of before.fixtures) {
      for (const point of ['subject-dome', 'backdrop-middle-centre']) {
        const field = page.getByTestId(`meter-${point}-${id}`);
        await field.waitFor();
        await field.fill(String(2 * Number(await field.getAttribute('placeholder'))));
      }
    }
    await shoot('meter-match');
    await page.getByTestId('meter-apply').dispatchEvent('click');
    const after = await readSetup(page);
    before.fixtures.forEach(({ output }, i) => {
      // The grey figure shows three digits or more.
      expect(after.fixtures[i].output.value / output.value).toBeCloseTo(2, 1);
    });
    await page.getByRole('button', { name: 'Close' }).dispatchEvent('click');
    await page.keyboard.press('Control+z');
    expect(await readSetup(page)).toEqual(before);
    expect(problems).toEqual([]);
    await close();
  }, 300_000);

  it('opens a setup from its link, and a damaged link not at all', async () => {
    const link = encodeShareLink(small);
    if (!link.ok) throw new Error(link.error.message);
    const { page, problems, close } = await open(TABLET, link.value);
    await waitForApp(page);
    expect((await readSetup(page)).title).toBe('Small turn');
    expect(new URL(page.url()).hash).toBe('');
    await close();
    const damaged = await open(TABLET, link.value.slice(0, -40));
    await expect.poll(() => damaged.page.getByTestId('notice').textContent()).toContain('link is damaged');
    expect([...problems, ...damaged.problems]).toEqual([]);
    await damaged.close();
  }, 240_000);
});

/** Until the app stands and a setup is open in it. */
const waitForApp = (page: Page) => page.waitForFunction(() => window.__keyglass !== undefined);

async function openSetup(page: Page, setup: Setup): Promise<void> {
  await waitForApp(page);
  await holdFiles(page);
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open', exact: true }).press('Enter');
  await (await choosing).setFiles({
    name: 'small.json',
    mimeType: 'application/json',
    buffer: Buffer.from(serializeSetup(setup)),
  });
  await expect.poll(async () => (await readSetup(page)).title).toBe(setup.title);
}

/** What ffprobe counts in a film. */
function probe(bytes: Uint8Array, name: string): { frames: number; width: number; duration: number } {
  const folder = mkdtempSync(join(tmpdir(), 'keyglass-film-'));
  try {
    const file = join(folder, name);
    writeFileSync(file, bytes);
    const fields = 'stream=nb_read_frames,width:format=duration';
    const args = [
      '-v',
      'error',
      '-count_frames',
      '-select_streams',
      'v:0',
      '-show_entries',
      fields,
      '-of',
      'json',
      file,
    ];
    const { stdout, status } = spawnSync('ffprobe', args, { encoding: 'utf8' });
    expect(status).toBe(0);
    const told = JSON.parse(stdout);
    return {
      frames: Number(told.streams[0].nb_read_frames),
      width: Number(told.streams[0].width),
      duration: Number(told.format.duration),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
