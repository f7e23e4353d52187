/** Entry of a tracing thread: a thread does not inherit the TypeScript loader of the command that starts it. */
import { tsImport } from 'tsx/esm/api';

await tsImport('./serveThread.ts', import.meta.url);
