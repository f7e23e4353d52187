import { developLinearPixels, developParams, developPixels, stopsViewPixels } from '../../camera/develop.ts';
import type { Camera } from '../../camera/records.ts';
import type { PictureMode } from '../session/index.ts';

/**
 * Develops light to 8-bit sRGB in one of the ways a picture is shown.
 *
 * @param rgbNits width x height x 3, working RGB, cd/m2.
 * @param image of the same size; written over.
 */
export function developImage(rgbNits: Float32Array, camera: Camera, mode: PictureMode, image: ImageData): void {
  const params = developParams(camera);
  if (mode === 'stops') stopsViewPixels(rgbNits, params, image.data, image.width);
  else if (mode === 'linear') developLinearPixels(rgbNits, params, image.data);
  else developPixels(rgbNits, params, image.data);
}
