/**
 * Times the page while a light is dragged over the plan in a headless browser, and how soon the traced picture is begun
 * anew after it is let go.
 *   node bench/drag.mjs [--demo NAME] [--steps N] [--dist FOLDER]
 * Prints median, 95th percentile and worst time between frames, and the restart, in milliseconds, as JSON. Without a
 * graphics card the frames are drawn by software: read the figures as an upper bound, and compare them within one run.
 */
import { parseArgs } from 'node:util';
import { preview } from 'vite';
import { launchBrowser } from '../tools/browser.mjs';
import { ensureBuild } from '../tools/build.mjs';
import { ROOT } from '../tools/setup.mjs';

const { values } = parseArgs({
  options: {
    demo: { type: 'string', default: 'hard-noon-slatted-wall' },
    steps: { type: 'string', default: '60' },
    dist: { type: 'string' },
  },
});
if (values.dist === undefined && !ensureBuild()) process.exit(1);
const server = await preview({
  root: ROOT,
  logLevel: 'error',
  preview: { port: 4373, strictPort: false },
  ...(values.dist ? { build: { outDir: values.dist } } : {}),
});
const browser = await launchBrowser();
const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
page.setDefaultTimeout(180_000);
let scriptBytes = 0;
page.on('response', async (response) => {
  if (response.request().resourceType() !== 'script') return;
  const sizes = await response
    .request()
    .sizes()
    .catch(() => null);
  scriptBytes += sizes?.responseBodySize ?? 0;
});
await page.goto(`${server.resolvedUrls?.local[0]}?demo=${values.demo}`);
await page.waitForFunction(() => (window.__keyglass?.trace().samples ?? 0) > 0);

/** Code that runs in the page, as text: what it hangs on the window is no part of the program. */
const inPage = (/** @type {string} */ code) => page.evaluate(code);
const fixtureId = await inPage('window.__keyglass.document().setup.fixtures[0].id');
const box = await page.locator(`svg [data-record-id="${fixtureId}"]`).first().boundingBox();
if (!box) throw new Error('the first light is not drawn');
const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
await inPage(`
  window.kgFrames = [];
  window.kgTiming = true;
  let last = performance.now();
  const tick = (now) => {
    window.kgFrames.push(now - last);
    last = now;
    if (window.kgTiming) requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
`);
await page.mouse.move(x, y);
await page.mouse.down();
const steps = Number(values.steps);
for (let step = 1; step <= steps; step++) {
  const turn = (2 * Math.PI * step) / steps;
  await page.mouse.move(x + 40 * Math.sin(turn), y + 24 * (1 - Math.cos(turn)) + 6);
}
// The release is listened for in the page: the way of a message from there to here is no part of the restart.
await inPage(`
  window.kgTiming = false;
  window.kgRestart = new Promise((resolve) => {
    window.addEventListener('pointerup', () => {
      const from = performance.now();
      const before = window.__keyglass.trace().tracesStarted;
      const look = () =>
        window.__keyglass.trace().tracesStarted > before ? resolve(performance.now() - from) : setTimeout(look, 1);
      look();
    }, { capture: true, once: true });
  });
  0
`);
/** @type {number[]} */
const frames = await inPage('window.kgFrames.slice(2)');
await page.mouse.up();
/** @type {number} */
const restartMs = await inPage('window.kgRestart');
frames.sort((a, b) => a - b);
const at = (/** @type {number} */ share) => Number((frames[Math.floor(share * (frames.length - 1))] ?? 0).toFixed(1));
console.log(
  JSON.stringify({
    demo: values.demo,
    frames: frames.length,
    medianMs: at(0.5),
    p95Ms: at(0.95),
    worstMs: at(1),
    restartMs: Number(restartMs.toFixed(1)),
    scriptKiB: Math.round(scriptBytes / 1024),
  }),
);
await browser.close();
await server.close();
