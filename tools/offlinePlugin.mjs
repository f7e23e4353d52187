/** Builds the service worker after the app, with the list of the files that it has to keep. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { build } from 'vite';
import { filesUnder } from './files.mjs';
import { ROOT } from './setup.mjs';

const SOURCE = join(ROOT, 'src', 'app', 'offline', 'serviceWorker.ts');
const NAME = 'serviceWorker.js';
/** Such names change with what is in the file. */
const HASHED = /-[\w-]{8}\.\w+$/;

/** @returns {import('vite').Plugin} */
export function offlinePlugin() {
  let outDir = '';
  return {
    name: 'keyglass-offline',
    apply: 'build',
    configResolved(config) {
      outDir = resolve(config.root, config.build.outDir);
    },
    async closeBundle() {
      await build({
        configFile: false,
        logLevel: 'warn',
        root: ROOT,
        publicDir: false,
        define: { __BUILT_FILES__: JSON.stringify(builtFiles(outDir)), 'process.env.NODE_ENV': '"production"' },
        build: {
          outDir,
          emptyOutDir: false,
          target: 'es2022',
          lib: { entry: SOURCE, formats: ['iife'], name: 'serviceWorker', fileName: () => NAME },
        },
      });
    },
  };
}

/**
 * @param {string} folder
 * @returns {{ url: string, revision: string | null }[]}
 */
function builtFiles(folder) {
  return filesUnder(folder)
    .map((file) => ({ file, url: relative(folder, file).split(sep).join('/') }))
    .filter(({ url }) => url !== NAME && !url.startsWith('.') && !url.endsWith('.map'))
    .sort((a, b) => (a.url < b.url ? -1 : 1))
    .map(({ file, url }) => ({
      url,
      revision: HASHED.test(url) ? null : createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 16),
    }));
}
