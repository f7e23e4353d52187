import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { ensureBuild } from '../../../tools/build.mjs';
import { ROOT } from '../../../tools/setup.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the built app, with a trailing slash. */
    appUrl: string;
  }
}

/** Builds the app when it is stale and serves it on a free port for all browser tests. */
export default async function serveApp(project: TestProject): Promise<() => Promise<void>> {
  if (!ensureBuild()) throw new Error('The app does not build; its output is above.');
  const server = await preview({ root: ROOT, logLevel: 'error', preview: { port: 4273, strictPort: false } });
  project.provide('appUrl', server.resolvedUrls?.local[0] ?? 'http://localhost:4273/');
  return () => server.close();
}
