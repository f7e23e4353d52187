import { z } from 'zod';
import { cameraSchema } from '../../camera/records.ts';
import { fail, ok, type Result } from '../../core/result.ts';
import { type ExrChannel, type ExrImage, exrChannelsFromRgb, REC709_CHROMATICITIES } from './exr.ts';
import { readExr } from './readExr.ts';
import type { FrameLayer, FrameStamp, TracedFrame } from './tracedFrame.ts';
import { writeExr } from './writeExr.ts';

/** Channels beside R, G, B and FIXTURE.R, FIXTURE.G, FIXTURE.B. */
const SAMPLES = 'samples';
const LUMINANCE_ERROR = 'luminanceError';
/** Attribute `light`. */
const LIGHT = { all: 'all', bounced: 'bounced only' } as const;

/**
 * A traced frame as an OpenEXR file: the picture, a layer per lit fixture as lit, the samples of each pixel and the
 * standard error of its luminance, and in text attributes where it came from, so that `createFrameMerge` can tell
 * what belongs together. (1, 1, 1) is 1 cd/m2.
 */
export function writeFrameExr(frame: TracedFrame): Uint8Array {
  const { widthPx, heightPx, stamp } = frame;
  return writeExr({
    widthPx,
    heightPx,
    channels: [
      ...exrChannelsFromRgb(frame.rgb),
      ...frame.layers.flatMap(({ fixtureId, rgb }) => exrChannelsFromRgb(rgb, fixtureId)),
      { name: SAMPLES, samples: frame.samples },
      { name: LUMINANCE_ERROR, samples: frame.luminanceError },
    ],
    chromaticities: REC709_CHROMATICITIES,
    attributes: {
      ...descriptionOf(frame),
      traceKey: stamp.traceKey,
      seeds: stamp.seeds.join(' '),
      gains: JSON.stringify(stamp.gains),
      light: stamp.bounceOnly ? LIGHT.bounced : LIGHT.all,
      camera: JSON.stringify(stamp.camera),
    },
  });
}

/** One fixture's share as a picture of its own. It carries no samples, so it is never taken for a frame. */
export const writeLayerExr = (frame: TracedFrame, { fixtureId, rgb }: FrameLayer): Uint8Array =>
  writeExr({
    widthPx: frame.widthPx,
    heightPx: frame.heightPx,
    channels: exrChannelsFromRgb(rgb),
    chromaticities: REC709_CHROMATICITIES,
    attributes: { ...descriptionOf(frame), fixture: fixtureId },
  });

/** Header entries for people and for other programs. */
const descriptionOf = ({ stamp, samples }: TracedFrame): Record<string, string | number> => ({
  software: `Keyglass ${stamp.programVersion}`,
  setup: stamp.setupTitle,
  frame: stamp.frameName,
  frameId: stamp.frameId,
  samplesPerPixel: samples.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
  aperture: stamp.camera.apertureFNumber,
  expTime: stamp.camera.shutterS,
  isoSpeed: stamp.camera.iso,
  focus: stamp.camera.focusDistanceM,
  whiteLuminance: 1,
});

/** Reads what {@link writeFrameExr} made; the message of an error says what is wrong and what to do. */
export function readFrameExr(bytes: Uint8Array): Result<TracedFrame, { readonly message: string }> {
  const file = readExr(bytes);
  if (!file.ok) return file;
  const stamp = stampOf(file.value);
  const picture = rgbOf(file.value);
  const samples = channelOf(file.value, SAMPLES);
  const luminanceError = channelOf(file.value, LUMINANCE_ERROR);
  if (!stamp || !picture || !samples || !luminanceError) {
    return fail({
      message:
        'holds no samples or does not say which trace it is; write it with `npm run -s frame -- ... --out F.exr`',
    });
  }
  const { widthPx, heightPx, channels } = file.value;
  const layers = channels.flatMap(({ name }): FrameLayer[] => {
    const fixtureId = name.endsWith('.R') ? name.slice(0, -2) : '';
    const rgb = fixtureId === '' ? undefined : rgbOf(file.value, fixtureId);
    return rgb ? [{ fixtureId, rgb }] : [];
  });
  return ok({ widthPx, heightPx, stamp, rgb: picture, layers, samples, luminanceError });
}

const channelOf = (image: ExrImage, name: string): Float32Array | undefined =>
  image.channels.find((channel: ExrChannel) => channel.name === name)?.samples;

function rgbOf(image: ExrImage, layer?: string): Float32Array | undefined {
  const parts = ['R', 'G', 'B'].map((c) => channelOf(image, layer === undefined ? c : `${layer}.${c}`));
  const [r, g, b] = parts;
  if (!r || !g || !b) return undefined;
  const rgb = new Float32Array(r.length * 3);
  for (let i = 0, k = 0; i < r.length; i++, k += 3) {
    rgb[k] = r[i];
    rgb[k + 1] = g[i];
    rgb[k + 2] = b[i];
  }
  return rgb;
}

const SOFTWARE = /^Keyglass (\S+)$/;
const SEEDS = /^\d+( \d+)*$/;
const gainsSchema = z.record(z.string(), z.array(z.number()).length(3));

function stampOf({ attributes = {} }: ExrImage): FrameStamp | undefined {
  const text = (name: string): string => String(attributes[name] ?? '');
  const version = SOFTWARE.exec(text('software'));
  const gains = gainsSchema.safeParse(parseJson(text('gains')));
  const camera = cameraSchema.safeParse(parseJson(text('camera')));
  if (!version || !gains.success || !camera.success || !SEEDS.test(text('seeds')) || text('traceKey') === '') {
    return undefined;
  }
  return {
    setupTitle: text('setup'),
    frameId: text('frameId'),
    frameName: text('frame'),
    traceKey: text('traceKey'),
    programVersion: version[1],
    seeds: text('seeds').split(' ').map(Number),
    gains: gains.data,
    bounceOnly: text('light') === LIGHT.bounced,
    camera: camera.data,
  };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
