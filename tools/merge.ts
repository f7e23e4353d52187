/** Command line: merges traces of one frame that differ in their seeds into one picture with all of their samples. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { createFrameMerge, frameGrain, readFrameExr, type TracedFrame } from '../src/deliverables/image/index.ts';
import { InputError, runCommand } from './cli/inputError.ts';
import { explainFileError } from './cli/openFrame.ts';
import { parseFilesAndOptions } from './cli/options.ts';
import { formatOf, savePictures } from './cli/pictureFiles.ts';
import { describeGrain } from './cli/progressLine.ts';

const USAGE = 'npm run -s merge -- A.exr B.exr ... --out C.exr|C.png|C.jpg|C.tif|C.pfm [--linear]';

async function run(): Promise<number> {
  const { files, values } = parseFilesAndOptions(
    process.argv.slice(2),
    { out: { type: 'string' }, linear: { type: 'boolean' } },
    USAGE,
  );
  if (values.out === undefined) throw new InputError(`--out is missing; use: ${USAGE}`);
  if (files.length < 2) throw new InputError(`name two frames or more; use: ${USAGE}`);
  const format = formatOf(values.out);
  const folder = dirname(values.out);
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new InputError(`--out: there is no folder ${folder}; make it first`);
  }
  const merge = createFrameMerge();
  for (const file of files) {
    const added = merge.add(file, readFrame(file));
    if (!added.ok) throw new InputError(added.error.message);
  }
  const frame = merge.merged();
  if (!frame) throw new InputError('no frame was read');
  for (const path of await savePictures(frame, values.out, undefined, { format, linear: values.linear ?? false })) {
    process.stdout.write(`${path}\n`);
  }
  process.stderr.write(
    `${files.length} frames, ${samplesOf(frame)} samples a pixel, ${describeGrain(frameGrain(frame))}\n`,
  );
  return 0;
}

function readFrame(file: string): TracedFrame {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    throw new InputError(`${file}: ${explainFileError(error)}`);
  }
  const frame = readFrameExr(bytes);
  if (!frame.ok) throw new InputError(`${file}: ${frame.error.message}`);
  return frame.value;
}

/** Mean over the frame: noisy parts have more than smooth ones. */
function samplesOf({ samples }: TracedFrame): string {
  return (samples.reduce((a, b) => a + b, 0) / samples.length).toFixed(0);
}

await runCommand('merge', run);
