import { existsSync, mkdirSync, statSync } from 'node:fs';
import { InputError } from './inputError.ts';
import { explainFileError } from './openFrame.ts';

/** Makes sure that a folder is there to write into; with `make` it is made. Anything else is an {@link InputError}. */
export function ensureFolder(flag: string, folder: string, make: boolean): void {
  try {
    if (make) mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new InputError(`${flag} ${folder}: ${explainFileError(error)}`);
  }
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new InputError(`${flag}: there is no folder ${folder}; make it first`);
  }
}
