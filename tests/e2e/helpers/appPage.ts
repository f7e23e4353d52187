import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, beforeAll, inject } from 'vitest';
import { launchBrowser } from '../../../tools/browser.mjs';
import { ROOT } from '../../../tools/setup.mjs';

const SHOTS = join(ROOT, 'tests', 'e2e', 'shots');

/** A page of the app, with everything that went wrong in it since it was opened. */
export interface AppPage {
  readonly page: Page;
  /** Console errors, uncaught errors and failed requests, oldest first. */
  readonly problems: readonly string[];
  /** Saves what the page shows under tests/e2e/shots and returns the path. */
  shoot(name: string): Promise<string>;
  /** Another page of the same browser, with all that was kept in it, at the address of the app. */
  openAnother(): Promise<AppPage>;
  close(): Promise<void>;
}

export interface PageSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

export const DESKTOP: PageSize = { widthPx: 1440, heightPx: 900 };
export const TABLET: PageSize = { widthPx: 1024, heightPx: 768 };
export const PHONE: PageSize = { widthPx: 390, heightPx: 844 };

/**
 * One browser for all tests of a file; call at the top of it. Each page gets a context of its own, so storage does not
 * leak from test to test.
 */
export function useBrowser(options: ContextOptions = {}): { open(size?: PageSize, path?: string): Promise<AppPage> } {
  let browser: Browser | undefined;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
  });
  return {
    open(size = DESKTOP, path = '') {
      if (!browser) throw new Error('open() belongs inside a test, after the browser is launched.');
      return openApp(browser, size, path, options);
    },
  };
}

/** What a page may do beyond the usual. */
export interface ContextOptions {
  /** Lets the page keep the program for use without a network; fetching it all again slows every other test. */
  readonly offline?: boolean;
  /** A screen for fingers, without a mouse. */
  readonly touch?: boolean;
  /** False where the picture does not matter: tracing would only take the machine from what is tested. */
  readonly trace?: boolean;
  /** What this browser has in local storage before the first visit. */
  readonly stored?: Readonly<Record<string, string>>;
}

/** Opens `path` below the address of the app and waits for its load event. */
export async function openApp(
  browser: Browser,
  size: PageSize,
  path = '',
  { offline = false, touch = false, trace = true, stored = {} }: ContextOptions = {},
): Promise<AppPage> {
  const localStorage = Object.entries(stored).map(([name, value]) => ({ name, value }));
  const context = await browser.newContext({
    viewport: { width: size.widthPx, height: size.heightPx },
    serviceWorkers: offline ? 'allow' : 'block',
    hasTouch: touch,
    isMobile: touch,
    storageState: { cookies: [], origins: [{ origin: new URL(inject('appUrl')).origin, localStorage }] },
  });
  if (!trace) {
    // A worker that never answers: the app waits for its first sample, as on a slow machine.
    await context.route('**/traceWorker-*', (route) => route.fulfill({ contentType: 'text/javascript', body: '' }));
  }
  const opened = await openPage(context, path);
  if (path === '') {
    // A first visit is asked how to begin; the first demo stands behind the question.
    await opened.page.getByTestId('start').waitFor();
    await opened.page.keyboard.press('Escape');
  }
  return opened;
}

async function openPage(context: BrowserContext, path: string): Promise<AppPage> {
  const page = await context.newPage();
  // Without a graphics card and beside other work a single step can take long; tests say what, never how fast.
  page.setDefaultTimeout(120_000);
  const problems: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`));
  page.on('requestfailed', (request) =>
    problems.push(`request: ${request.url()} ${request.failure()?.errorText ?? ''}`),
  );
  await page.goto(new URL(path, inject('appUrl')).href, { waitUntil: 'load' });
  return {
    page,
    problems,
    async shoot(name) {
      mkdirSync(SHOTS, { recursive: true });
      const file = join(SHOTS, `${name}.png`);
      await page.screenshot({ path: file });
      return file;
    },
    openAnother: () => openPage(context, ''),
    close: () => context.close(),
  };
}
