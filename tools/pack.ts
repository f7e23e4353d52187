/** Command line: everything that leaves the program for client, crew and hire house, in one folder, without a browser. */
import { basename, extname, join } from 'node:path';
import { fileStem } from '../src/deliverables/exchange/setupFile.ts';
import { createScenePictures } from '../src/deliverables/traced/scenePictures.ts';
import { InputError, runCommand } from './cli/inputError.ts';
import { openFrame, reportDiagnostics } from './cli/openFrame.ts';
import { parseFilesAndOptions, positiveNumber, wholeNumber } from './cli/options.ts';
import { createPoolTracer } from './cli/poolTracer.ts';
import { programVersion } from './cli/programVersion.ts';
import { readMarks } from './cli/readMarks.ts';
import { alternativeOf } from './pack/alternatives.ts';
import { openPackFrames } from './pack/openPackFrames.ts';
import { createOutput } from './pack/output.ts';
import { packClient } from './pack/packClient.ts';
import { packExchange } from './pack/packExchange.ts';
import { packFrames } from './pack/packFrames.ts';
import { packPlan } from './pack/packPlan.ts';
import { packSheets } from './pack/packSheets.ts';
import { packTurn } from './pack/packTurn.ts';

const PARTS = ['plan', 'sheets', 'frames', 'client', 'turn', 'exchange'] as const;
type Part = (typeof PARTS)[number];

const USAGE =
  'npm run -s pack -- SETUP.json... --out DIR [--only plan,sheets,frames,client,turn,exchange] [--samples N] ' +
  '[--width W] [--seed K] [--date YYYY-MM-DD] [--table-height MM] [--alternative OTHER.json]... ' +
  '[--turn-frames N|all] [--blur-steps N] [--mark highlight,run-out] [--client-notes]';
const DEFAULT_SAMPLES = 96;
const DEFAULT_WIDTH_PX = 960;
const DEFAULT_TURN_FRAMES = 36;
const MAX_SAMPLES = 100_000;

async function run(): Promise<number> {
  const { files, values } = parseFilesAndOptions(
    process.argv.slice(2),
    {
      out: { type: 'string' },
      only: { type: 'string' },
      samples: { type: 'string' },
      width: { type: 'string' },
      seed: { type: 'string' },
      date: { type: 'string' },
      'table-height': { type: 'string' },
      alternative: { type: 'string', multiple: true },
      'turn-frames': { type: 'string' },
      'blur-steps': { type: 'string' },
      mark: { type: 'string' },
      'client-notes': { type: 'boolean' },
    },
    USAGE,
  );
  if (values.out === undefined) throw new InputError(`--out is missing; use: ${USAGE}`);
  const parts = partsOf(values.only);
  const date = dateOf(values.date);
  const tableHeightMm = positiveNumber('--table-height', values['table-height'], 3000);
  const turnFrames =
    values['turn-frames'] === 'all'
      ? ('all' as const)
      : (wholeNumber('--turn-frames', values['turn-frames'], 1, 20_000) ?? DEFAULT_TURN_FRAMES);
  const blurSteps = wholeNumber('--blur-steps', values['blur-steps'], 1, 64);
  const marks = readMarks(values.mark);
  const picture = {
    widthPx: wholeNumber('--width', values.width, 16, 8192) ?? DEFAULT_WIDTH_PX,
    samples: wholeNumber('--samples', values.samples, 1, MAX_SAMPLES) ?? DEFAULT_SAMPLES,
    seed: wholeNumber('--seed', values.seed, 0, 2 ** 32 - 1) ?? 1,
  };

  const alternatives = (values.alternative ?? []).map((path) => alternativeOf(openFrame(path, undefined).setup));
  const options = { date, ...(tableHeightMm === undefined ? {} : { tableHeightM: tableHeightMm / 1000 }) };
  const wants = (part: Part): boolean => parts.includes(part);
  // Read before anything is written, so that a bad file in a list costs nothing.
  const setups = files.map((file) => ({ file, setup: openFrame(file, undefined).setup }));
  const folders = foldersOf(values.out, setups);
  const tracer = createPoolTracer();
  try {
    for (const [i, { file, setup }] of setups.entries()) {
      const frames = openPackFrames(file, setup);
      for (const { frameSet } of frames) reportDiagnostics(frameSet.scene, frameSet.set);
      const output = createOutput(folders[i]);
      const pictures = createScenePictures(tracer.trace, { ...picture, programVersion: programVersion() });
      if (wants('plan')) await packPlan(output, frames, options);
      if (wants('sheets')) await packSheets(output, frames, options);
      if (wants('exchange')) packExchange(output, setup, frames);
      if (wants('frames')) await packFrames(output, frames, alternatives, pictures);
      if (wants('client')) {
        const showNotes = values['client-notes'] ?? false;
        await packClient(output, setup, frames, alternatives, pictures, { date, showNotes });
      }
      if (wants('turn')) {
        const own = blurSteps === undefined ? {} : { blurSteps };
        await packTurn(output, frames, pictures, { widthPx: picture.widthPx, frames: turnFrames, ...own, ...marks });
      }
      for (const path of output.written()) process.stdout.write(`${path}\n`);
    }
  } finally {
    tracer.dispose();
  }
  return 0;
}

/** The folder itself for one setup; for several one below it for each, named after its file. */
function foldersOf(out: string, setups: readonly { readonly file: string }[]): string[] {
  if (setups.length === 1) return [out];
  const stems = setups.map(({ file }) => fileStem(basename(file, extname(file))));
  const twice = stems.find((stem, i) => stems.indexOf(stem) !== i);
  if (twice !== undefined) throw new InputError(`two setups would be packed into ${join(out, twice)}: rename a file`);
  return stems.map((stem) => join(out, stem));
}

function partsOf(only: string | undefined): readonly Part[] {
  if (only === undefined) return PARTS;
  return only.split(',').map((name) => {
    const part = PARTS.find((known) => known === name.trim());
    if (!part) throw new InputError(`--only ${name}: there are ${PARTS.join(', ')}`);
    return part;
  });
}

/** The day on the papers: as given, else today's. */
function dateOf(given: string | undefined): string {
  if (given === undefined) return new Date().toISOString().slice(0, 10);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(given) || Number.isNaN(Date.parse(given))) {
    throw new InputError(`--date ${given}: give a day as YYYY-MM-DD`);
  }
  return given;
}

await runCommand('pack', run);
