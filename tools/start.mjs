/**
 * Builds the app when needed, serves it, and opens it in the default browser.
 *   --no-open   only print the address
 *   --check     serve, request the page and its script once, and exit 0 when both arrive
 */
import { spawn } from 'node:child_process';
import { ensureBuild } from './build.mjs';
import { ROOT, setUp } from './setup.mjs';

const flags = new Set(process.argv.slice(2));

if (!(await setUp()) || !ensureBuild()) process.exit(1);

const { preview } = await import('vite');
const server = await preview({ root: ROOT, logLevel: 'error', preview: { port: 4173, strictPort: false } });
const url = server.resolvedUrls?.local[0] ?? 'http://localhost:4173/';

if (flags.has('--check')) {
  const problem = await pageProblem(url);
  console.log(problem ?? `The app is served at ${url}`);
  await server.close();
  process.exit(problem ? 1 : 0);
}

console.log(`Keyglass is at ${url}\nPress Ctrl-C to stop.`);
if (!flags.has('--no-open') && !process.env.CI) openInBrowser(url);
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.once(signal, async () => {
    await server.close();
    process.exit(0);
  });
}

/**
 * @param {string} pageUrl
 * @returns {Promise<string | null>} what is wrong, or null
 */
async function pageProblem(pageUrl) {
  const page = await fetch(pageUrl);
  if (!page.ok) return `The page answered ${page.status}.`;
  const script = /<script[^>]+src="([^"]+)"/.exec(await page.text())?.[1];
  if (!script) return 'The page names no script.';
  const answer = await fetch(new URL(script, pageUrl));
  const type = answer.headers.get('content-type') ?? '';
  return answer.ok && type.includes('javascript') ? null : `The script answered ${answer.status} as ${type}.`;
}

/**
 * Quietly does nothing where there is no desktop.
 * @param {string} address
 */
function openInBrowser(address) {
  if (process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) return;
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(command, args, { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}
