/** Command line: traces one frame into a picture file. Ctrl-C writes what there is; a second one drops it. */
import { dirname } from 'node:path';
import { cameraView } from '../src/camera/projection.ts';
import type { Camera } from '../src/camera/records.ts';
import { gainsById, tracedFrameOf, traceFactsOf } from '../src/deliverables/image/index.ts';
import { checkSettingsOf } from '../src/document/checkSettings.ts';
import { traceKey } from '../src/document/hash.ts';
import type { Frame, Setup } from '../src/document/setup.ts';
import { layerGains } from '../src/fixtures/gain.ts';
import { buildSet } from '../src/scene/buildSet.ts';
import { compileWorld } from '../src/transport/compile/compileWorld.ts';
import { denoiseFilm } from '../src/transport/cpu/denoiseFilm.ts';
import { ensureFolder } from './cli/ensureFolder.ts';
import { InputError, runCommand } from './cli/inputError.ts';
import { openFrame, reportDiagnostics } from './cli/openFrame.ts';
import { parseCommandLine, positiveNumber, wholeNumber } from './cli/options.ts';
import { formatOf, isStill, savePictures } from './cli/pictureFiles.ts';
import { programVersion } from './cli/programVersion.ts';
import { createProgressLine, describeGrain } from './cli/progressLine.ts';
import { traceFilm } from './cli/traceFilm.ts';
import { traceTurnFolder } from './cli/traceTurnFolder.ts';

const USAGE =
  'npm run -s frame -- SETUP.json --out F.png|F.jpg|F.tif|F.exr|F.pfm [--frame NAME] [--width W --height H | --delivery] ' +
  '[--samples N | --seconds S] [--layers DIR] [--seed K] [--linear] [--bounce-only] [--smooth] [--grain PERCENT], ' +
  'or with --turn DIR [--turn-frames N|all] [--blur-steps N] [--mark highlight,run-out] in place of --out';
const DEFAULT_WIDTH_PX = 960;
const DEFAULT_SAMPLES = 128;
const MAX_SAMPLES = 1_000_000;
const MAX_SIDE_PX = 8192;
const MAX_DEPTH = 24;

async function run(): Promise<number> {
  const { file, values } = parseCommandLine(
    process.argv.slice(2),
    {
      out: { type: 'string' },
      frame: { type: 'string' },
      width: { type: 'string' },
      height: { type: 'string' },
      samples: { type: 'string' },
      seconds: { type: 'string' },
      layers: { type: 'string' },
      seed: { type: 'string' },
      linear: { type: 'boolean' },
      'bounce-only': { type: 'boolean' },
      smooth: { type: 'boolean' },
      grain: { type: 'string' },
      delivery: { type: 'boolean' },
      turn: { type: 'string' },
      'turn-frames': { type: 'string' },
      'blur-steps': { type: 'string' },
      mark: { type: 'string' },
    },
    USAGE,
  );
  if (values.turn !== undefined) return traceTurnFolder(file, { ...values, turn: values.turn });
  if (values.out === undefined) throw new InputError(`--out is missing; use: ${USAGE}`);
  if (values.samples !== undefined && values.seconds !== undefined) {
    throw new InputError('--samples and --seconds: give one of them');
  }
  const format = formatOf(values.out);
  if (values.smooth && (!isStill(format) || values.linear || values.layers !== undefined)) {
    throw new InputError(
      '--smooth makes a picture for looking at, not for measuring: give a plain --out F.png, F.jpg or F.tif with it',
    );
  }
  if (values.linear && format === 'jpg') throw new InputError('--linear: JPEG has too few steps for it; give F.tif');
  if (values.delivery && values.width !== undefined) throw new InputError('--delivery and --width: give one of them');
  const seconds = positiveNumber('--seconds', values.seconds, 86_400);
  const samples = wholeNumber('--samples', values.samples, 1, MAX_SAMPLES);
  const grain = positiveNumber('--grain', values.grain, 100);
  const seed = wholeNumber('--seed', values.seed, 0, 2 ** 32 - 1) ?? 1;
  const width = wholeNumber('--width', values.width, 1, MAX_SIDE_PX);
  const height = wholeNumber('--height', values.height, 1, MAX_SIDE_PX);
  const { setup, frame, scene } = openFrame(file, values.frame);
  const size = pictureSize(scene.camera, values.delivery ? deliveryWidthPx(setup, frame) : width, height);
  ensureFolder('--out', dirname(values.out), false);
  if (values.layers !== undefined) ensureFolder('--layers', values.layers, true);

  const set = buildSet(scene);
  reportDiagnostics(scene, set);
  const gains = layerGains(scene.fixtures);
  const interrupt = new AbortController();
  process.once('SIGINT', () => {
    interrupt.abort();
    process.once('SIGINT', () => process.exit(130));
  });
  const line = createProgressLine(process.stderr);
  const film = await traceFilm({
    job: {
      world: compileWorld(set),
      view: cameraView(scene.camera, size.widthPx / size.heightPx),
      ...size,
      seed,
      samplesPerPixel: samples ?? (seconds === undefined ? DEFAULT_SAMPLES : MAX_SAMPLES),
      maxDepth: MAX_DEPTH,
      layerGains: gains,
      bounceOnly: values['bounce-only'] ?? false,
      ...(grain === undefined ? {} : { targetRelativeError: grain / 100 }),
    },
    ...(seconds === undefined ? {} : { seconds }),
    interrupt: interrupt.signal,
    onProgress: ({ samplesDone, samplesPerPixel, relativeError }, elapsedS) => {
      const goal = seconds === undefined ? `${samplesDone} of ${samplesPerPixel}` : `${samplesDone}`;
      line.show(`${goal} samples, ${describeGrain(relativeError)}, ${elapsedS.toFixed(0)} s`, elapsedS);
    },
  });
  line.end();
  if (film.samples.every((n) => n === 0)) throw new InputError('stopped before the first sample; nothing to write');

  const traced = tracedFrameOf(values.smooth ? denoiseFilm(film, gains) : film, gains, {
    setupTitle: setup.title,
    frameId: frame.id,
    frameName: frame.name,
    traceKey: traceKey(scene),
    programVersion: programVersion(),
    seeds: [seed],
    gains: gainsById(film.layerIds, gains),
    bounceOnly: values['bounce-only'] ?? false,
    camera: scene.camera,
  });
  const written = await savePictures(traced, values.out, values.layers, {
    format,
    linear: values.linear ?? false,
    smoothed: values.smooth ?? false,
    trace: traceFactsOf(film),
  });
  for (const path of written) process.stdout.write(`${path}\n`);
  return 0;
}

/** Width that the setup says the picture is delivered in. */
const deliveryWidthPx = (setup: Setup, frame: Frame): number => checkSettingsOf(setup, frame).capture.pictureWidthPx;

/** Sides that are left out follow from the sensor's shape. */
function pictureSize(camera: Camera, width: number | undefined, height: number | undefined) {
  const aspect = camera.sensorWidthMm / camera.sensorHeightMm;
  const widthPx = width ?? (height === undefined ? DEFAULT_WIDTH_PX : Math.max(1, Math.round(height * aspect)));
  const heightPx = height ?? Math.max(1, Math.round(widthPx / aspect));
  if (Math.max(widthPx, heightPx) > MAX_SIDE_PX) {
    throw new InputError(`--width and --height: ${widthPx} x ${heightPx} is over ${MAX_SIDE_PX} pixels a side`);
  }
  return { widthPx, heightPx };
}

await runCommand('frame', run);
