import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { clientPage } from '../../src/deliverables/clientPage/clientPage.ts';
import { writePng } from '../../src/deliverables/image/png.ts';
import { PAPER_SIZES } from '../../src/deliverables/paper/paperSize.ts';
import { svgFromSheet } from '../../src/deliverables/paper/svgFromSheet.ts';
import { drawingSheets } from '../../src/deliverables/plan/drawingSheets.ts';
import { HOSTILE_TEXTS, hostileSetup } from '../deliverables/helpers/hostile.ts';
import { openFrame } from '../deliverables/helpers/openFrames.ts';
import { TABLET, useBrowser } from './helpers/appPage.ts';

const { open } = useBrowser({ trace: false });

describe('in a real browser', () => {
  it('a page and a plan full of hostile names run nothing and fetch nothing', async () => {
    const setup = hostileSetup();
    const png = writePng({ widthPx: 2, heightPx: 2, rgb: new Uint8Array(12) });
    const texts = [...HOSTILE_TEXTS, '<img src="http://localhost:9/x" onerror="window.ran=1">'];
    const page = clientPage({
      setup,
      date: '2026-04-18',
      showNotes: true,
      frames: [{ png, widthPx: 2, heightPx: 2, name: texts.join(' '), notes: texts, alternatives: [] }],
    });
    const [plan] = drawingSheets(openFrame(setup), { paper: PAPER_SIZES.a4, date: '2026-04-18' });
    const folder = mkdtempSync(join(tmpdir(), 'keyglass-hostile-'));
    const app = await open(TABLET, 'icon.svg');
    try {
      for (const [name, content] of [
        ['client.html', page],
        ['plan.svg', svgFromSheet(plan.sheet)],
      ] as const) {
        const file = join(folder, name);
        writeFileSync(file, content);
        const address = pathToFileURL(file).href;
        const tab = await app.page.context().newPage();
        const asked: string[] = [];
        let ran = false;
        tab.on('request', (request) => asked.push(request.url()));
        tab.on('dialog', (dialog) => {
          ran = true;
          void dialog.dismiss();
        });
        await tab.goto(address, { waitUntil: 'load' });
        await tab.waitForTimeout(300);
        expect(asked.filter((url) => url !== address && !url.startsWith('data:'))).toEqual([]);
        expect(ran).toBe(false);
        expect(await tab.evaluate(() => 'ran' in window)).toBe(false);
        await tab.close();
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
      await app.close();
    }
  }, 240_000);

  it('the app loads nothing from elsewhere and runs no script that is written into it', async () => {
    const { page, close } = await open(TABLET, '?demo=tonic-on-gloss-black');
    const blocked = await page.evaluate(async () => {
      const seen: string[] = [];
      document.addEventListener('securitypolicyviolation', (event) => seen.push(event.effectiveDirective));
      const script = document.createElement('script');
      script.textContent = 'window.ran = 1';
      document.body.append(script);
      const image = new Image();
      image.src = 'http://example.invalid/x.png';
      const fetched = await fetch('http://example.invalid/').then(
        () => 'reached',
        () => 'refused',
      );
      const frame = document.createElement('iframe');
      frame.src = 'data:text/html,x';
      document.body.append(frame);
      await new Promise((resolve) => setTimeout(resolve, 300));
      return { seen, fetched, ran: 'ran' in window };
    });
    expect(blocked.ran).toBe(false);
    expect(blocked.fetched).toBe('refused');
    // Content Security Policy Level 3: effective directives of an inline script, an image, a request and a frame.
    for (const directive of ['script-src-elem', 'img-src', 'connect-src', 'frame-src']) {
      expect(blocked.seen).toContain(directive);
    }
    await close();
  }, 240_000);
});
