import { developColour, developLinear, developParams, developPixels } from '../../camera/develop.ts';
import type { Camera } from '../../camera/records.ts';
import { encodeSrgb } from '../../core/color/spaces.ts';
import { invariant } from '../../core/result.ts';
import type { Film } from '../../transport/contracts.ts';
import { composeFilm } from '../../transport/cpu/film.ts';
import type { RgbImage } from '../image/linearImage.ts';

/** A film with the gains that it is to be shown under. */
export interface LitFilm {
  readonly film: Film;
  /** layers x 3, working RGB. */
  readonly layerGains: Float32Array;
}

/** Light in a picture: working RGB, cd/m2. */
export type LightImage = RgbImage<Float32Array>;

/** The light of several films of one size, averaged: the way a moving thing blurs while the shutter is open. */
export function meanLight(exposures: readonly LitFilm[]): LightImage {
  const [first] = exposures;
  invariant(first !== undefined, () => 'a picture of no film');
  const { widthPx, heightPx } = first.film;
  const rgb = new Float32Array(widthPx * heightPx * 3);
  for (const { film, layerGains } of exposures) {
    invariant(film.widthPx === widthPx && film.heightPx === heightPx, () => 'films of unlike sizes');
    const light = composeFilm(film, layerGains);
    for (let i = 0; i < rgb.length; i++) rgb[i] += light[i] / exposures.length;
  }
  return { widthPx, heightPx, rgb };
}

/** As the camera shows it: sRGB, 8 bits a channel. */
export function developedRgb8({ widthPx, heightPx, rgb }: LightImage, camera: Camera): RgbImage<Uint8Array> {
  const rgba = developPixels(rgb, developParams(camera));
  const codes = new Uint8Array(rgb.length);
  for (let p = 0; p < widthPx * heightPx; p++) {
    for (let k = 0; k < 3; k++) codes[3 * p + k] = rgba[4 * p + k];
  }
  return { widthPx, heightPx, rgb: codes };
}

/** The same in 16 bits, each pixel by the exact formula and not by a table. */
export function developedRgb16({ widthPx, heightPx, rgb }: LightImage, camera: Camera): RgbImage<Uint16Array> {
  const params = developParams(camera);
  const codes = new Uint16Array(rgb.length);
  for (let i = 0; i < rgb.length; i += 3) {
    const shown = developColour([rgb[i], rgb[i + 1], rgb[i + 2]], params);
    for (let k = 0; k < 3; k++) codes[i + k] = Math.round(65535 * Math.min(1, Math.max(0, shown[k])));
  }
  return { widthPx, heightPx, rgb: codes };
}

/** Exposure and white balance without the tone curve, 16 bits, white where the sensor clips. */
export function plainRgb16({ widthPx, heightPx, rgb }: LightImage, camera: Camera): RgbImage<Uint16Array> {
  const linear = developLinear(rgb, developParams(camera));
  const codes = Uint16Array.from(linear, (v) => Math.round(65535 * encodeSrgb(Math.min(1, Math.max(0, v)))));
  return { widthPx, heightPx, rgb: codes };
}
