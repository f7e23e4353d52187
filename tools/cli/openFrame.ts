import { readFileSync, statSync } from 'node:fs';
import { cameraDiagnostics } from '../../src/camera/cameraDiagnostics.ts';
import type { Diagnostic } from '../../src/core/diagnostic.ts';
import { parseSetup } from '../../src/document/codec.ts';
import { findFrame, resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Frame, Setup } from '../../src/document/setup.ts';
import type { FrameScene, SetModel } from '../../src/scene/setModel.ts';
import { InputError } from './inputError.ts';

/** Refused before it is read. */
export const MAX_FILE_MB = 20;

export interface OpenFrame {
  readonly setup: Setup;
  readonly frame: Frame;
  readonly scene: FrameScene;
}

/** Reads a setup file and resolves one of its frames; the first when none is named. Bad input is an {@link InputError}. */
export function openFrame(file: string, frameName: string | undefined): OpenFrame {
  const parsed = parseSetup(readText(file));
  if (!parsed.ok) throw new InputError(`${file}: ${parsed.error.message}`);
  const { setup } = parsed.value;
  const found = findFrame(setup, frameName ?? setup.frames[0].id);
  if (!found.ok) throw new InputError(`--frame: ${found.error[0]?.message ?? 'no such frame'}`);
  const scene = resolveFrame(setup, found.value.id);
  if (!scene.ok) throw new InputError(`${file}: ${scene.error[0]?.message ?? 'the frame cannot be resolved'}`);
  return { setup, frame: found.value, scene: scene.value };
}

function readText(file: string): string {
  try {
    const stat = statSync(file);
    if (!stat.isFile()) throw new InputError(`${file}: not a file; give a setup in JSON`);
    const megabytes = stat.size / 2 ** 20;
    if (megabytes > MAX_FILE_MB) {
      throw new InputError(
        `${file}: ${megabytes.toFixed(0)} MB, a setup has ${MAX_FILE_MB} MB at most; check that it is the right file`,
      );
    }
    return readFileSync(file, 'utf8');
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(`${file}: ${explainFileError(error)}`);
  }
}

export function explainFileError(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'ENOENT') return 'no such file; check the path';
  if (code === 'ENOTDIR') return 'part of the path is not a folder; check the path';
  if (code === 'EACCES' || code === 'EPERM') return 'no permission; check who owns it';
  if (code === 'EISDIR') return 'is a folder; name a file';
  return error instanceof Error ? error.message : String(error);
}

/** Stops on the first thing that can't be built; doubtful ones go to stderr, a line each. */
export function reportDiagnostics(scene: FrameScene, set: SetModel): void {
  const all: Diagnostic[] = [...set.diagnostics, ...cameraDiagnostics(scene.camera)];
  const fatal = all.find(({ severity }) => severity === 'error');
  if (fatal) throw new InputError(fatal.message);
  for (const { message } of all) process.stderr.write(`Note: ${message}\n`);
}
