import { readFileSync } from 'node:fs';
import { z } from 'zod';

/** Version of the program, from package.json. */
export function programVersion(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return z.object({ version: z.string() }).parse(JSON.parse(text)).version;
}
