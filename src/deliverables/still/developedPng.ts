import { developParams, developPixels } from '../../camera/develop.ts';
import type { Camera } from '../../camera/records.ts';
import { invariant } from '../../core/result.ts';
import type { Film } from '../../transport/contracts.ts';
import { composeFilm } from '../../transport/cpu/film.ts';
import { writePng } from '../image/png.ts';

/** A film with the gains that it is to be shown under. */
export interface LitFilm {
  readonly film: Film;
  /** layers x 3, working RGB. */
  readonly layerGains: Float32Array;
}

/**
 * The picture as the camera shows it, PNG, sRGB, 8 bits. Several films of one size are averaged in light before they are
 * developed: the way a moving thing blurs while the shutter is open.
 */
export function developedPng(exposures: readonly LitFilm[], camera: Camera): Uint8Array {
  const [first] = exposures;
  invariant(first !== undefined, () => 'a picture of no film');
  const { widthPx, heightPx } = first.film;
  const sum = new Float32Array(widthPx * heightPx * 3);
  for (const { film, layerGains } of exposures) {
    invariant(film.widthPx === widthPx && film.heightPx === heightPx, () => 'films of unlike sizes');
    const rgb = composeFilm(film, layerGains);
    for (let i = 0; i < sum.length; i++) sum[i] += rgb[i] / exposures.length;
  }
  const rgba = developPixels(sum, developParams(camera));
  const rgb = new Uint8Array(sum.length);
  for (let p = 0; p < widthPx * heightPx; p++) {
    for (let k = 0; k < 3; k++) rgb[3 * p + k] = rgba[4 * p + k];
  }
  return writePng({ widthPx, heightPx, rgb });
}
