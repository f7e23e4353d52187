import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { InputError } from '../cli/inputError.ts';
import { explainFileError } from '../cli/openFrame.ts';

/** The folder that everything is written into. */
export interface Output {
  /** Writes a file under the folder; folders on the way are made. */
  write(path: string, content: string | Uint8Array): void;
  /** Paths of all files written so far, in order. */
  written(): readonly string[];
}

export function createOutput(folder: string): Output {
  const paths: string[] = [];
  return {
    write(path, content) {
      const full = join(folder, path);
      try {
        mkdirSync(dirname(full), { recursive: true });
        writeFileSync(full, content);
      } catch (error) {
        throw new InputError(`--out ${full}: ${explainFileError(error)}`);
      }
      paths.push(full);
    },
    written: () => paths,
  };
}
