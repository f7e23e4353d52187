import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Every file below a path, or the path itself when it is one; none when it isn't there.
 *
 * @param {string} path
 * @returns {string[]}
 */
export function filesUnder(path) {
  if (!existsSync(path)) return [];
  return statSync(path).isDirectory() ? readdirSync(path).flatMap((name) => filesUnder(join(path, name))) : [path];
}
