import { writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import {
  type FrameLayer,
  factsOfTracedFrame,
  type PictureFacts,
  type TracedFrame,
  workingSamplesFromRec709,
  writeFrameExr,
  writeLayerExr,
  writePfm,
} from '../../src/deliverables/image/index.ts';
import { stillFile } from '../../src/deliverables/still/stillFile.ts';
import { encodeJpeg } from './encodeJpeg.ts';
import { InputError } from './inputError.ts';
import { explainFileError } from './openFrame.ts';

export const PICTURE_FORMATS = ['png', 'jpg', 'tif', 'exr', 'pfm'] as const;
export type PictureFormat = (typeof PICTURE_FORMATS)[number];

export interface PictureOptions {
  readonly format: PictureFormat;
  /** PNG and TIFF: exposure and white balance without the tone curve, 16 bits, white where the sensor clips. */
  readonly linear: boolean;
  /** The grain was taken out: said in the file. */
  readonly smoothed?: boolean;
  /** Samples and error as traced, where the frame itself no longer tells. */
  readonly trace?: Pick<PictureFacts, 'samplesPerPixel' | 'relativeError'>;
}

/** Other usual endings of the same formats. */
const ALIASES: Readonly<Record<string, PictureFormat>> = { jpeg: 'jpg', tiff: 'tif' };

export function formatOf(out: string): PictureFormat {
  const ending = extname(out).slice(1).toLowerCase();
  const format = PICTURE_FORMATS.find((known) => known === (ALIASES[ending] ?? ending));
  if (!format) throw new InputError(`--out ${out}: end the name in .${PICTURE_FORMATS.join(', .')}`);
  return format;
}

/** Whether a format is for looking at, so that it may be smoothed. */
export const isStill = (format: PictureFormat): boolean => format === 'png' || format === 'jpg' || format === 'tif';

/** The bytes of a frame's picture; OpenEXR holds all else of it too. */
export async function encodePicture(frame: TracedFrame, options: PictureOptions): Promise<Uint8Array> {
  const { widthPx, heightPx } = frame;
  const { format, linear, smoothed = false } = options;
  if (format === 'exr') return writeFrameExr(frame);
  if (format === 'pfm') return writePfm({ widthPx, heightPx, rgb: frame.rgb });
  const light = { widthPx, heightPx, rgb: workingSamplesFromRec709(frame.rgb) };
  const facts = { ...factsOfTracedFrame(frame, smoothed), ...options.trace };
  return stillFile(light, frame.stamp.camera, facts, { format, linear, encodeJpeg });
}

/** Writes the picture, and with `layersDir` each lit fixture's share as a file of its own. Returns the paths. */
export async function savePictures(
  frame: TracedFrame,
  out: string,
  layersDir: string | undefined,
  options: PictureOptions,
): Promise<string[]> {
  const files = [{ path: out, bytes: await encodePicture(frame, options) }];
  if (layersDir !== undefined) {
    for (const layer of frame.layers) {
      // A colon can't stand in every system's file names, and no id has a full stop.
      const name = `${layer.fixtureId.replaceAll(':', '.')}.${options.format}`;
      files.push({ path: join(layersDir, name), bytes: await encodeLayer(frame, layer, options) });
    }
  }
  for (const { path, bytes } of files) savePicture(path, bytes);
  return files.map(({ path }) => path);
}

/** Writes one file; trouble is an {@link InputError} that names it. */
export function savePicture(path: string, bytes: Uint8Array): void {
  try {
    writeFileSync(path, bytes);
  } catch (error) {
    throw new InputError(`${path}: ${explainFileError(error)}`);
  }
}

const encodeLayer = async (frame: TracedFrame, layer: FrameLayer, options: PictureOptions): Promise<Uint8Array> =>
  options.format === 'exr' ? writeLayerExr(frame, layer) : encodePicture({ ...frame, rgb: layer.rgb }, options);
