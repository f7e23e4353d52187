import type { Camera } from '../../camera/records.ts';
import type { Film } from '../../transport/contracts.ts';
import { composeFilm } from '../../transport/cpu/film.ts';
import type { PictureMode } from '../session/index.ts';
import { developImage } from './developImage.ts';

/**
 * The picture as light, for the spot meter: width x height x 3, working RGB, cd/m2, row 0 at the top. Always of the film as
 * traced, also while a smoothed copy is shown; composed when first asked for.
 */
export interface ComposedPicture {
  readonly rgbNits: Float32Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

interface PaintInput {
  readonly film: Film;
  /** Smoothed copy to show in its place, if any. */
  readonly shown?: Film;
  readonly layerGains: Float32Array;
  readonly camera: Camera;
  readonly mode: PictureMode;
}

/**
 * Paints a film on a 2D canvas under the present gains and camera settings. Buffers are kept between calls, so that a
 * moved fader costs one weighted sum and one development.
 */
export function createPicturePainter(canvas: HTMLCanvasElement) {
  const context = canvas.getContext('2d', { alpha: false });
  let image: ImageData | null = null;
  let rgbNits = new Float32Array(0);
  return function paint({ film, shown, layerGains, camera, mode }: PaintInput): ComposedPicture {
    const { widthPx, heightPx } = film;
    if (image === null || image.width !== widthPx || image.height !== heightPx) {
      canvas.width = widthPx;
      canvas.height = heightPx;
      image = new ImageData(widthPx, heightPx);
      rgbNits = new Float32Array(widthPx * heightPx * 3);
    }
    composeFilm(shown ?? film, layerGains, rgbNits);
    developImage(rgbNits, camera, mode, image);
    context?.putImageData(image, 0, 0);
    if (!shown) return { rgbNits, widthPx, heightPx };
    let metered: Float32Array | null = null;
    return {
      get rgbNits() {
        metered ??= composeFilm(film, layerGains);
        return metered;
      },
      widthPx,
      heightPx,
    };
  };
}
