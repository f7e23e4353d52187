/**
 * Gets a fresh checkout ready: the right Node, the packages of the lockfile and, with --browser, a browser for the
 * end-to-end tests. Runs before anything is installed, so it imports nothing but Node's own modules.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const MIN_NODE = [20, 19];

/**
 * @param {string} version as in process.versions.node
 * @returns {string | null} what is wrong and how to mend it, or null when the version will do
 */
export function nodeVersionProblem(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const recent = major > MIN_NODE[0] || (major === MIN_NODE[0] && minor >= MIN_NODE[1]);
  return recent
    ? null
    : `Keyglass needs Node ${MIN_NODE.join('.')} or newer; this is ${version}. Install the current LTS from nodejs.org and try again.`;
}

/**
 * Are the packages of the lockfile the ones that npm last installed? Reads npm's own record of the installed tree, so
 * it also notices a lockfile that changed after a pull. Packages for other platforms may be missing.
 * @param {string} root
 */
export function packagesAreCurrent(root) {
  const wanted = readPackages(join(root, 'package-lock.json'));
  const installed = readPackages(join(root, 'node_modules', '.package-lock.json'));
  if (!wanted || !installed) return false;
  return Object.entries(wanted).every(
    ([path, entry]) =>
      path === '' || installed[path]?.version === entry.version || (entry.optional === true && !installed[path]),
  );
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean }> | null}
 */
function readPackages(file) {
  if (!existsSync(file)) return null;
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages ?? null;
  } catch {
    return null;
  }
}

/**
 * Runs npm the same way on every platform: through the npm that started us when there is one.
 * @param {string[]} args
 * @returns {number} exit status
 */
export function runNpm(args) {
  const self = process.env.npm_execpath;
  const options = /** @type {const} */ ({ cwd: ROOT, stdio: 'inherit' });
  const result = self?.endsWith('.js')
    ? spawnSync(process.execPath, [self, ...args], options)
    : spawnSync('npm', args, { ...options, shell: process.platform === 'win32' });
  return result.status ?? 1;
}

/**
 * Installs what is missing.
 * @param {{ browser?: boolean }} [options]
 * @returns {Promise<boolean>} false when something could not be set up; the reason has been printed
 */
export async function setUp({ browser = false } = {}) {
  const problem = nodeVersionProblem(process.versions.node);
  if (problem) {
    console.error(problem);
    return false;
  }
  if (!packagesAreCurrent(ROOT)) {
    console.log('Installing packages (npm ci)');
    if (runNpm(['ci']) !== 0) {
      console.error('Packages could not be installed. Check the network connection, then run the command again.');
      return false;
    }
  }
  if (browser) {
    const { ensureBrowser } = await import('./browser.mjs');
    const found = ensureBrowser();
    if (!found.ok) console.error(found.message);
    return found.ok;
  }
  return true;
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  setUp({ browser: process.argv.includes('--browser') }).then((ready) => {
    process.exitCode = ready ? 0 : 1;
  });
}
