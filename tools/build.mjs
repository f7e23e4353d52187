/** Builds the app when the built one does not match the sources. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { filesUnder } from './files.mjs';
import { ROOT } from './setup.mjs';

const SOURCES = [
  'src',
  'assets',
  'public',
  'index.html',
  'vite.config.ts',
  'tools/offlinePlugin.mjs',
  'tools/policyPlugin.mjs',
  'package-lock.json',
];
const STAMP = join(ROOT, 'dist', '.sources');

/**
 * @returns {boolean} false when the build failed; its output has been printed
 */
export function ensureBuild() {
  const digest = digestOfSources();
  if (existsSync(join(ROOT, 'dist', 'index.html')) && existsSync(STAMP) && readFileSync(STAMP, 'utf8') === digest) {
    return true;
  }
  console.log('Building the app');
  const cli = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');
  // A test runner sets another mode for itself, in which the page would be built for development.
  const env = { ...process.env, NODE_ENV: 'production' };
  const built = spawnSync(process.execPath, [cli, 'build', '--logLevel', 'warn'], { cwd: ROOT, stdio: 'inherit', env });
  if (built.status !== 0) return false;
  writeFileSync(STAMP, digest);
  return true;
}

/** Hash over names and contents, so that a removed or renamed file counts as well. */
function digestOfSources() {
  const hash = createHash('sha256');
  for (const file of SOURCES.flatMap((name) => filesUnder(join(ROOT, name))).sort()) {
    hash.update(relative(ROOT, file).split(sep).join('/'));
    hash.update('\0');
    hash.update(readFileSync(file));
    hash.update('\0');
  }
  return hash.digest('hex');
}
