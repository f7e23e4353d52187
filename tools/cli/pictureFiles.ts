import { writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { developLinear, developParams, developPixels } from '../../src/camera/develop.ts';
import type { Camera } from '../../src/camera/records.ts';
import { encodeSrgb } from '../../src/core/color/spaces.ts';
import {
  type FrameLayer,
  type TracedFrame,
  workingSamplesFromRec709,
  writeFrameExr,
  writeLayerExr,
  writePfm,
  writePng,
} from '../../src/deliverables/image/index.ts';
import { InputError } from './inputError.ts';
import { explainFileError } from './openFrame.ts';

export const PICTURE_FORMATS = ['png', 'exr', 'pfm'] as const;
export type PictureFormat = (typeof PICTURE_FORMATS)[number];

export interface PictureOptions {
  readonly format: PictureFormat;
  /** PNG only: exposure and white balance without the tone curve, 16 bits, white where the sensor clips. */
  readonly linear: boolean;
}

export function formatOf(out: string): PictureFormat {
  const ending = extname(out).slice(1).toLowerCase();
  const format = PICTURE_FORMATS.find((known) => known === ending);
  if (!format) throw new InputError(`--out ${out}: end the name in .${PICTURE_FORMATS.join(', .')}`);
  return format;
}

/** The bytes of a frame's picture; OpenEXR holds all else of it too. */
export function encodePicture(frame: TracedFrame, { format, linear }: PictureOptions): Uint8Array {
  const { widthPx, heightPx } = frame;
  const { camera } = frame.stamp;
  switch (format) {
    case 'exr':
      return writeFrameExr(frame);
    case 'pfm':
      return writePfm({ widthPx, heightPx, rgb: frame.rgb });
    case 'png': {
      const working = workingSamplesFromRec709(frame.rgb);
      return writePng({ widthPx, heightPx, rgb: linear ? plainCodes(working, camera) : shownCodes(working, camera) });
    }
  }
}

function shownCodes(rgbNits: Float32Array, camera: Camera): Uint8Array {
  const rgba = developPixels(rgbNits, developParams(camera));
  return Uint8Array.from({ length: rgbNits.length }, (_, i) => rgba[Math.floor(i / 3) * 4 + (i % 3)]);
}

function plainCodes(rgbNits: Float32Array, camera: Camera): Uint16Array {
  const linear = developLinear(rgbNits, developParams(camera));
  return Uint16Array.from(linear, (v) => Math.round(65535 * encodeSrgb(Math.min(1, Math.max(0, v)))));
}

/** Writes the picture, and with `layersDir` each lit fixture's share as a file of its own. Returns the paths. */
export function savePictures(
  frame: TracedFrame,
  out: string,
  layersDir: string | undefined,
  options: PictureOptions,
): string[] {
  const files = [{ path: out, bytes: encodePicture(frame, options) }];
  if (layersDir !== undefined) {
    for (const layer of frame.layers) {
      // A colon can't stand in every system's file names, and no id has a full stop.
      const name = `${layer.fixtureId.replaceAll(':', '.')}.${options.format}`;
      files.push({ path: join(layersDir, name), bytes: encodeLayer(frame, layer, options) });
    }
  }
  for (const { path, bytes } of files) {
    try {
      writeFileSync(path, bytes);
    } catch (error) {
      throw new InputError(`${path}: ${explainFileError(error)}`);
    }
  }
  return files.map(({ path }) => path);
}

const encodeLayer = (frame: TracedFrame, layer: FrameLayer, options: PictureOptions): Uint8Array =>
  options.format === 'exr' ? writeLayerExr(frame, layer) : encodePicture({ ...frame, rgb: layer.rgb }, options);
