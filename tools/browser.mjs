/**
 * Finds a Chromium for the end-to-end tests, installs one when there is none, and launches it with the software GPU.
 * Imports only Node's own modules until a browser is launched.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import { ROOT } from './setup.mjs';

/** @typedef {{ ok: true, executablePath: string } | { ok: false, message: string }} BrowserSearch */

const LINUX_NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
const MAC_PATHS = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];
const WINDOWS_PATHS = [
  ['Google', 'Chrome', 'Application', 'chrome.exe'],
  ['Chromium', 'Application', 'chrome.exe'],
  ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
];

/**
 * A browser that is here already: KEYGLASS_CHROMIUM, then the system's, then the test driver's own download.
 * @param {NodeJS.ProcessEnv} [env]
 * @returns {BrowserSearch}
 */
export function findBrowser(env = process.env) {
  const named = env.KEYGLASS_CHROMIUM;
  if (named) {
    return existsSync(named)
      ? { ok: true, executablePath: named }
      : { ok: false, message: `KEYGLASS_CHROMIUM points at ${named}, which does not exist. Correct it or unset it.` };
  }
  const executablePath = systemCandidates(env).find(isUsable) ?? downloadedBrowser();
  return executablePath
    ? { ok: true, executablePath }
    : { ok: false, message: 'No Chromium found. Install one, or set KEYGLASS_CHROMIUM to its path.' };
}

/**
 * Finds a browser, or installs one: from the distribution on Debian and Ubuntu as root, else the test driver's own.
 * @returns {BrowserSearch}
 */
export function ensureBrowser() {
  const found = findBrowser();
  if (found.ok || process.env.KEYGLASS_CHROMIUM) return found;
  console.log('Installing a browser for the end-to-end tests');
  const onRunner = process.env.GITHUB_ACTIONS === 'true';
  if (!onRunner && isDebianAsRoot()) {
    const installed = run('apt-get', ['update']) && run('apt-get', ['install', '-y', 'chromium']);
    const fromDistribution = installed ? findBrowser() : found;
    if (fromDistribution.ok) return fromDistribution;
  }
  run(process.execPath, [driverCli(), 'install', ...(onRunner ? ['--with-deps'] : []), 'chromium']);
  return findBrowser();
}

/**
 * Launches the browser that the end-to-end tests drive.
 * @param {string[]} [extraArgs]
 * @returns {Promise<import('playwright').Browser>}
 */
export async function launchBrowser(extraArgs = []) {
  const found = findBrowser();
  if (!found.ok) throw new Error(found.message);
  const { chromium } = await import('playwright');
  return chromium.launch({
    executablePath: found.executablePath,
    args: [
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      '--ignore-gpu-blocklist',
      '--disable-background-networking',
      '--disable-component-update',
      '--no-first-run',
      ...extraArgs,
    ],
  });
}

/**
 * @param {NodeJS.ProcessEnv} env
 * @returns {string[]}
 */
function systemCandidates(env) {
  if (process.platform === 'darwin') return MAC_PATHS;
  if (process.platform === 'win32') {
    const roots = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA];
    return roots.flatMap((root) => (root ? WINDOWS_PATHS.map((parts) => join(root, ...parts)) : []));
  }
  const folders = (env.PATH ?? '').split(delimiter).filter(Boolean);
  return LINUX_NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
}

/**
 * On Linux a name may be a stub that only asks for another package, so it must also answer.
 * @param {string} path
 */
function isUsable(path) {
  if (!existsSync(path)) return false;
  return process.platform !== 'linux' || spawnSync(path, ['--version'], { stdio: 'ignore' }).status === 0;
}

function downloadedBrowser() {
  try {
    const { chromium } = createRequire(import.meta.url)('playwright');
    const path = chromium.executablePath();
    return existsSync(path) ? path : null;
  } catch {
    return null;
  }
}

const driverCli = () => join(ROOT, 'node_modules', 'playwright', 'cli.js');

function isDebianAsRoot() {
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !existsSync('/etc/os-release')) return false;
  return /^ID(_LIKE)?=.*(debian|ubuntu)/m.test(readFileSync('/etc/os-release', 'utf8'));
}

/**
 * @param {string} command
 * @param {string[]} args
 */
function run(command, args) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return spawnSync(command, args, { cwd: ROOT, stdio: 'inherit', env }).status === 0;
}
