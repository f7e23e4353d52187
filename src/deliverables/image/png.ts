import { encode } from 'fast-png';
import { checkRgbImage, type RgbImage } from './linearImage.ts';

/**
 * PNG of display-ready sRGB code values: 8 bits a channel from `Uint8Array`, 16 from `Uint16Array`.
 * Source: ISO/IEC 15948, through the encoder of fast-png.
 */
export function writePng(image: RgbImage<Uint8Array | Uint8ClampedArray | Uint16Array>): Uint8Array {
  checkRgbImage(image);
  const { widthPx, heightPx, rgb } = image;
  const depth = rgb instanceof Uint16Array ? 16 : 8;
  return encode({ width: widthPx, height: heightPx, data: rgb, channels: 3, depth });
}
