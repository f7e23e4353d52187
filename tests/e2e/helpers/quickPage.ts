import { join } from 'node:path';
import { decode } from 'fast-png';
import type { Browser } from 'playwright';
import { build } from 'vite';
import { ROOT } from '../../../tools/setup.mjs';
import type { QuickOrder } from './quickEntry.ts';

export interface QuickPage {
  /** RGB bytes of the picture, rows from the top. */
  draw(order: QuickOrder): Promise<{ bytes: Uint8Array; widthPx: number; heightPx: number; png: Uint8Array }>;
  close(): Promise<void>;
}

/** An empty page that holds the quick picture alone, without the app. Console errors fail the drawing. */
export async function openQuickPage(browser: Browser): Promise<QuickPage> {
  const built = await build({
    root: ROOT,
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: { entry: join(ROOT, 'tests/e2e/helpers/quickEntry.ts'), formats: ['iife'], name: 'quick' },
    },
    define: { 'process.env.NODE_ENV': '"production"' },
  });
  const [bundle] = Array.isArray(built) ? built : [built];
  if (!('output' in bundle)) throw new Error('the quick picture does not bundle');
  const code = bundle.output[0].code;
  const page = await browser.newPage();
  page.setDefaultTimeout(170_000);
  const problems: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') problems.push(message.text());
  });
  page.on('pageerror', (error) => problems.push(error.message));
  await page.addScriptTag({ content: code });
  return {
    async draw(order) {
      const address = await page.evaluate((o) => window.drawQuick?.(o) ?? '', order);
      if (problems.length > 0) throw new Error(problems.join('\n'));
      const png = Uint8Array.from(Buffer.from(address.slice(address.indexOf(',') + 1), 'base64'));
      const { data, width, height, channels } = decode(png);
      const bytes = new Uint8Array(width * height * 3);
      for (let i = 0; i < width * height; i++) for (let c = 0; c < 3; c++) bytes[3 * i + c] = data[channels * i + c];
      return { bytes, widthPx: width, heightPx: height, png };
    },
    close: () => page.close(),
  };
}
