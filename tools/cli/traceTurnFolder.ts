import { join } from 'node:path';
import { openFrameSet } from '../../src/deliverables/frameSet.ts';
import { createScenePictures } from '../../src/deliverables/traced/scenePictures.ts';
import { ensureFolder } from './ensureFolder.ts';
import { InputError } from './inputError.ts';
import { openFrame, reportDiagnostics } from './openFrame.ts';
import { wholeNumber } from './options.ts';
import { savePicture } from './pictureFiles.ts';
import { createPoolTracer } from './poolTracer.ts';
import { programVersion } from './programVersion.ts';
import { readMarks } from './readMarks.ts';
import { writeTurnFiles } from './turnFiles.ts';

export interface TurnValues {
  readonly turn: string;
  readonly frame?: string;
  readonly out?: string;
  readonly width?: string;
  readonly samples?: string;
  readonly seed?: string;
  readonly 'turn-frames'?: string;
  readonly 'blur-steps'?: string;
  readonly mark?: string;
}

const DEFAULT_WIDTH_PX = 960;
const DEFAULT_SAMPLES = 32;
const DEFAULT_FRAMES = 36;

/** Traces one round of a frame's turntable into a folder of numbered pictures, smoothed. Returns the exit status. */
export async function traceTurnFolder(file: string, values: TurnValues): Promise<number> {
  if (values.out !== undefined) throw new InputError('--out and --turn: give one of them');
  const widthPx = wholeNumber('--width', values.width, 16, 8192) ?? DEFAULT_WIDTH_PX;
  const samples = wholeNumber('--samples', values.samples, 1, 100_000) ?? DEFAULT_SAMPLES;
  const seed = wholeNumber('--seed', values.seed, 0, 2 ** 32 - 1) ?? 1;
  const blurSteps = wholeNumber('--blur-steps', values['blur-steps'], 1, 64);
  const frames =
    values['turn-frames'] === 'all'
      ? ('all' as const)
      : (wholeNumber('--turn-frames', values['turn-frames'], 1, 20_000) ?? DEFAULT_FRAMES);
  const marks = readMarks(values.mark);
  const { setup, frame } = openFrame(file, values.frame);
  const opened = openFrameSet(setup, frame.id);
  if (!opened.ok) throw new InputError(`${file}: ${opened.error[0]?.message ?? 'the frame cannot be resolved'}`);
  reportDiagnostics(opened.value.scene, opened.value.set);
  ensureFolder('--turn', values.turn, true);
  const tracer = createPoolTracer();
  try {
    const pictures = createScenePictures(tracer.trace, { widthPx, samples, seed, programVersion: programVersion() });
    const options = { widthPx, frames, ...(blurSteps === undefined ? {} : { blurSteps }), ...marks };
    await writeTurnFiles(opened.value, pictures, options, (path, content) => {
      const full = join(values.turn, path);
      savePicture(full, typeof content === 'string' ? new TextEncoder().encode(content) : content);
      process.stdout.write(`${full}\n`);
    });
  } finally {
    tracer.dispose();
  }
  return 0;
}
