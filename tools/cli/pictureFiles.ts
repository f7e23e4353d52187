import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { developLinear, developParams, developPixels } from '../../src/camera/develop.ts';
import type { Camera } from '../../src/camera/records.ts';
import { encodeSrgb } from '../../src/core/color/spaces.ts';
import {
  exrChannelsFromRgb,
  REC709_CHROMATICITIES,
  rec709SamplesFromWorking,
  writeExr,
  writePfm,
  writePng,
} from '../../src/deliverables/image/index.ts';
import type { Film } from '../../src/transport/contracts.ts';
import { composeFilm } from '../../src/transport/cpu/film.ts';
import { InputError } from './inputError.ts';
import { explainFileError } from './openFrame.ts';

export const PICTURE_FORMATS = ['png', 'exr', 'pfm'] as const;
export type PictureFormat = (typeof PICTURE_FORMATS)[number];

export interface PictureOptions {
  readonly format: PictureFormat;
  readonly camera: Camera;
  /** PNG only: exposure and white balance without the tone curve, 16 bits, white where the sensor clips. */
  readonly linear: boolean;
  /** Header entries of OpenEXR. */
  readonly attributes: Readonly<Record<string, string | number>>;
}

/** One fixture's share of the picture under its gain, working RGB, cd/m2. The shares add up to the picture. */
export interface LayerPicture {
  readonly fixtureId: string;
  readonly rgbNits: Float32Array;
}

/** Shares of the fixtures that are lit; the others are black and left out. */
export function layerPictures(film: Film, layerGains: Float32Array): LayerPicture[] {
  return film.layerIds.flatMap((fixtureId, layer) => {
    const alone = new Float32Array(film.layerIds.length * 3);
    alone.set(layerGains.subarray(layer * 3, layer * 3 + 3), layer * 3);
    return alone.some((gain) => gain > 0) ? [{ fixtureId, rgbNits: composeFilm(film, alone) }] : [];
  });
}

/** The bytes of a picture; `layers` go into OpenEXR, which alone can hold them. */
export function encodePicture(
  size: { readonly widthPx: number; readonly heightPx: number },
  rgbNits: Float32Array,
  options: PictureOptions,
  layers: readonly LayerPicture[] = [],
): Uint8Array {
  const { widthPx, heightPx } = size;
  switch (options.format) {
    case 'pfm':
      return writePfm({ widthPx, heightPx, rgb: rec709SamplesFromWorking(rgbNits) });
    case 'exr':
      return writeExr({
        widthPx,
        heightPx,
        channels: [
          ...exrChannelsFromRgb(rec709SamplesFromWorking(rgbNits)),
          ...layers.flatMap((layer) => exrChannelsFromRgb(rec709SamplesFromWorking(layer.rgbNits), layer.fixtureId)),
        ],
        chromaticities: REC709_CHROMATICITIES,
        // (1, 1, 1) is 1 cd/m2.
        attributes: { ...options.attributes, whiteLuminance: 1 },
      });
    case 'png':
      return writePng({
        widthPx,
        heightPx,
        rgb: options.linear ? plainCodes(rgbNits, options) : shownCodes(rgbNits, options),
      });
  }
}

function shownCodes(rgbNits: Float32Array, { camera }: PictureOptions): Uint8Array {
  const rgba = developPixels(rgbNits, developParams(camera));
  return Uint8Array.from({ length: rgbNits.length }, (_, i) => rgba[Math.floor(i / 3) * 4 + (i % 3)]);
}

function plainCodes(rgbNits: Float32Array, { camera }: PictureOptions): Uint16Array {
  const linear = developLinear(rgbNits, developParams(camera));
  return Uint16Array.from(linear, (v) => Math.round(65535 * encodeSrgb(Math.min(1, Math.max(0, v)))));
}

/** Writes the picture, and with `layersDir` each lit fixture's share as a file of its own. Returns the paths. */
export function savePictures(
  film: Film,
  layerGains: Float32Array,
  out: string,
  layersDir: string | undefined,
  options: PictureOptions,
): string[] {
  const layers = options.format === 'exr' || layersDir !== undefined ? layerPictures(film, layerGains) : [];
  const files = [{ path: out, bytes: encodePicture(film, composeFilm(film, layerGains), options, layers) }];
  if (layersDir !== undefined) {
    for (const { fixtureId, rgbNits } of layers) {
      // A colon can't stand in every system's file names, and no id has a full stop.
      const name = `${fixtureId.replaceAll(':', '.')}.${options.format}`;
      files.push({ path: join(layersDir, name), bytes: encodePicture(film, rgbNits, options) });
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
