/**
 * Takes the pictures of the screens that docs/tour.md shows: `node tools/screens.mjs [WIDTHxHEIGHT]...`, into
 * docs/img/screens as JPEG. Serves the built app by itself and builds it when it is stale.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { preview } from 'vite';
import { launchBrowser } from './browser.mjs';
import { ensureBuild } from './build.mjs';
import { ROOT } from './setup.mjs';

const OUT = join(ROOT, 'docs', 'img', 'screens');
const SIZES = ['1440x900', '1024x768', '390x844'];
const DEMO = 'tonic-on-gloss-black-wrong';
/** From here on the smoothed frame stands still to the eye. */
const SAMPLES = 48;
const MOST_WAIT_MS = Number(process.env.KEYGLASS_SCREENS_WAIT_S ?? 600) * 1000;
const QUALITY = 82;

/**
 * @param {import('playwright').Browser} browser
 * @param {string} url
 * @param {string} size
 */
async function takeScreens(browser, url, size) {
  const [width, height] = size.split('x').map(Number);
  const touch = width < 760;
  const context = await browser.newContext({
    viewport: { width, height },
    serviceWorkers: 'block',
    hasTouch: touch,
    isMobile: touch,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  page.on('console', (message) => message.type() === 'error' && console.error(`${size}: ${message.text()}`));
  page.on('pageerror', (error) => console.error(`${size}: ${error.message}`));
  /** @param {string} name */
  const shoot = async (name) => {
    // Until what was just opened has faded in.
    await page.waitForTimeout(600);
    await page.waitForFunction(() =>
      [...document.images]
        .filter((image) => image.getBoundingClientRect().bottom > 0 && image.getBoundingClientRect().top < innerHeight)
        .every((image) => image.complete),
    );
    await page.screenshot({ path: join(OUT, `${name}-${width}.jpg`), type: 'jpeg', quality: QUALITY });
    console.log(`${name}-${width}.jpg`);
  };
  /** @param {string} isUp @param {string} name */
  const shootDialog = async (isUp, name) => {
    await page.getByTestId(isUp).waitFor();
    await shoot(name);
    await page.keyboard.press('Escape');
    await page.getByTestId(isUp).waitFor({ state: 'hidden' });
  };
  const handOver = page.getByRole('button', { name: 'Hand over' });

  await page.goto(url, { waitUntil: 'load' });
  await page.getByTestId('start').waitFor();
  await page.waitForLoadState('networkidle');
  await shoot('start');
  await page.goto(`${url}?demo=${DEMO}`, { waitUntil: 'load' });
  await page.waitForFunction(() => window.__keyglass?.results().hasResults === true);
  await page
    .waitForFunction((samples) => (window.__keyglass?.trace().samples ?? 0) >= samples, SAMPLES, {
      timeout: MOST_WAIT_MS,
    })
    .catch(() => console.error(`${size}: fewer than ${SAMPLES} samples`));

  await shoot('frame');
  for (const [key, name] of [
    ['f', 'stops'],
    ['c', 'crop'],
    ['b', 'before'],
    ['u', 'build-up'],
  ]) {
    await page.keyboard.press(key);
    if (key === 'c') await page.getByRole('button', { name: '4:5', exact: true }).dispatchEvent('click');
    if (key === 'b') {
      // The kept frame is the one as lit; now the light on the backdrop is two stops down.
      await page.getByTestId('fader').nth(1).press('PageDown');
      await page.getByTestId('fader').nth(1).press('PageDown');
      // Until the frame of now is smoothed anew.
      await page.waitForTimeout(3000);
    }
    await shoot(name);
    const undoes = key === 'c' ? 1 : key === 'b' ? 2 : 0;
    for (let step = 0; step < undoes; step++) await page.keyboard.press('Control+z');
    await page.keyboard.press(key);
  }

  if (width < 1240) await page.getByRole('tab', { name: 'Checks', exact: true }).dispatchEvent('click');
  await page.getByTestId('finding').first().getByRole('button').first().dispatchEvent('click');
  if (touch) await page.getByRole('tab', { name: 'Checks', exact: true }).evaluate((tab) => tab.scrollIntoView());
  await shoot('finding');
  await page.evaluate(() => window.scrollTo(0, 0));
  await page.keyboard.press('Escape');

  await page.keyboard.press('a');
  await shootDialog('shelf', 'shelf');
  await page.keyboard.press('Control+k');
  await shootDialog('search', 'search');
  await handOver.press('Enter');
  await shootDialog('hand-over', 'hand-over');
  await handOver.press('Enter');
  await page.getByText('Match a meter').dispatchEvent('click');
  await shootDialog('meter-subject-dome-fixture:panel', 'meter-match');

  await page.getByRole('button', { name: 'Room', exact: true }).press('Enter');
  await page.getByRole('menuitemradio', { name: 'Bright', exact: true }).dispatchEvent('click');
  await page.keyboard.press('Escape');
  await shoot('bright-room');
  await context.close();
}

if (!ensureBuild()) process.exit(1);
mkdirSync(OUT, { recursive: true });
const server = await preview({ root: ROOT, logLevel: 'error', preview: { port: 4283, strictPort: false } });
const browser = await launchBrowser();
try {
  for (const size of process.argv.length > 2 ? process.argv.slice(2) : SIZES)
    await takeScreens(browser, server.resolvedUrls?.local[0] ?? 'http://localhost:4283/', size);
} finally {
  await browser.close();
  await server.close();
}
