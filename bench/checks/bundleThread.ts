import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

/** The thread of checks as the app ships its worker: bundled, types taken off. */
export async function bundleThread(): Promise<URL> {
  const outDir = mkdtempSync(join(tmpdir(), 'keyglass-bench-'));
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: fileURLToPath(new URL('./checkThread.ts', import.meta.url)),
      outDir,
      emptyOutDir: true,
      rollupOptions: { output: { entryFileNames: 'checkThread.mjs' } },
    },
  });
  return pathToFileURL(join(outDir, 'checkThread.mjs'));
}
