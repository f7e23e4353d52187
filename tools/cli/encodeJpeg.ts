import { encode } from 'jpeg-js';
import type { RgbImage } from '../../src/deliverables/image/linearImage.ts';
import { JPEG_QUALITY } from '../../src/deliverables/still/stillFile.ts';

/** Baseline JPEG (ITU-T T.81), colour at full resolution. */
export function encodeJpeg({ widthPx, heightPx, rgb }: RgbImage<Uint8Array>): Uint8Array {
  const rgba = new Uint8Array(widthPx * heightPx * 4);
  for (let p = 0; p < widthPx * heightPx; p++) {
    rgba.set(rgb.subarray(3 * p, 3 * p + 3), 4 * p);
    rgba[4 * p + 3] = 255;
  }
  return encode({ width: widthPx, height: heightPx, data: rgba }, JPEG_QUALITY).data;
}
