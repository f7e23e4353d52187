import { fail, ok, type Result } from '../../core/result.ts';
import { MAX_SETUP_CHARS, parseSetup, type SetupError, serializeSetup } from '../../document/codec.ts';
import type { Setup } from '../../document/setup.ts';

/** What went wrong with a file as such; what is wrong inside it is a {@link SetupError}. */
export interface FileFault {
  readonly kind: 'tooLarge' | 'notText' | 'notOneFile' | 'notAllowed' | 'failed';
  readonly message: string;
}

/** A place on disk that can be written again without asking. */
export interface SetupFileTarget {
  readonly name: string;
  write(text: string): Promise<Result<void, FileFault>>;
}

/** What a page offers for files. Null values mean that the person changed their mind. */
export interface FilePort {
  pickFile(): Promise<Result<PickedFile | null, FileFault>>;
  /** Left out where the browser can only download. */
  pickTarget?(suggestedName: string): Promise<Result<SetupFileTarget | null, FileFault>>;
  download(name: string, text: string): Result<void, FileFault>;
}

export interface PickedFile {
  readonly file: SetupFile;
  readonly target?: SetupFileTarget;
}

/** The part of a `File` that is needed. */
export interface SetupFile {
  readonly name: string;
  readonly size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

export interface OpenedSetup {
  readonly setup: Setup;
  readonly fromVersion: number;
  readonly name: string;
  /** Where it came from, when it can be saved there again. */
  readonly target?: SetupFileTarget;
}

/** A character takes at most 3 bytes of UTF-8 per UTF-16 unit. */
const MAX_FILE_BYTES = MAX_SETUP_CHARS * 3;

/** Asks for a file and reads it. The document that is open is left to the caller: nothing is touched here. */
export async function openSetupFile(port: FilePort): Promise<Result<OpenedSetup | null, FileFault | SetupError>> {
  const picked = await port.pickFile();
  if (!picked.ok || picked.value === null) return picked.ok ? ok(null) : picked;
  const opened = await readSetupFile(picked.value.file);
  if (!opened.ok) return opened;
  return ok({ ...opened.value, ...(picked.value.target ? { target: picked.value.target } : {}) });
}

/** Reads a file that was picked or dropped. Its size is looked at before its content. */
export async function readSetupFile(file: SetupFile): Promise<Result<OpenedSetup, FileFault | SetupError>> {
  if (file.size > MAX_FILE_BYTES) {
    const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;
    return fail({
      kind: 'tooLarge',
      message: `"${shorten(file.name)}" has ${megabytes(file.size)}; a setup has at most ${megabytes(MAX_FILE_BYTES)}. Choose a setup file.`,
    });
  }
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return fail({
      kind: 'failed',
      message: `"${shorten(file.name)}" could not be read: it may have been moved or changed. Choose it again.`,
    });
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return fail({
      kind: 'notText',
      message: `"${shorten(file.name)}" is not a text file in UTF-8. Choose a setup file.`,
    });
  }
  const parsed = parseSetup(text);
  return parsed.ok ? ok({ ...parsed.value, name: file.name }) : parsed;
}

/**
 * Saves to the place that the setup came from, else to one that is asked for, else as a download.
 * @returns the place, to save to from now on; null when the person changed their mind or it was a download.
 */
export async function saveSetupFile(
  port: FilePort,
  setup: Setup,
  target?: SetupFileTarget,
): Promise<Result<{ readonly saved: boolean; readonly target?: SetupFileTarget }, FileFault>> {
  const text = serializeSetup(setup);
  const name = fileNameFor(setup.title);
  if (!target && !port.pickTarget) {
    const downloaded = port.download(name, text);
    return downloaded.ok ? ok({ saved: true }) : downloaded;
  }
  const chosen = target ? ok(target) : ((await port.pickTarget?.(name)) ?? ok(null));
  if (!chosen.ok) return chosen;
  if (chosen.value === null) return ok({ saved: false });
  const written = await chosen.value.write(text);
  return written.ok ? ok({ saved: true, target: chosen.value }) : written;
}

/** The one file of a drop; a fault that says so when there are more or none. */
export function fileFromDrop<F extends SetupFile>(files: ArrayLike<F>): Result<F, FileFault> {
  const file = files[0];
  if (files.length === 1 && file) return ok(file);
  const message = files.length === 0 ? 'That was no file: drop a setup file.' : 'Drop one setup file at a time.';
  return fail({ kind: 'notOneFile', message });
}

/** `Tonic on gloss black` gives `tonic-on-gloss-black.json`. */
export function fileNameFor(title: string): string {
  const base = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{Diacritic}/gu, '')
    .replace(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `${base || 'setup'}.json`;
}

const shorten = (name: string): string => (name.length > 60 ? `${name.slice(0, 60)}...` : name);
