import type { Camera } from '../../camera/records.ts';
import type { PictureFacts } from '../image/pictureFacts.ts';
import { writePng } from '../image/png.ts';
import { developedRgb8, type LitFilm, meanLight } from './developedPixels.ts';

/**
 * The picture as the camera shows it, PNG, sRGB, 8 bits, with what it says of itself. Several films of one size are
 * averaged in light before they are developed.
 */
export const developedPng = (exposures: readonly LitFilm[], camera: Camera, facts?: PictureFacts): Uint8Array =>
  writePng(developedRgb8(meanLight(exposures), camera), facts);
