import type { Camera } from '../../camera/records.ts';
import { assertNever } from '../../core/result.ts';
import { exifBlock, jpegWithExif } from '../image/exif.ts';
import type { RgbImage } from '../image/linearImage.ts';
import type { PictureFacts } from '../image/pictureFacts.ts';
import { writePng } from '../image/png.ts';
import { writeTiff16 } from '../image/tiff.ts';
import { developedRgb8, developedRgb16, type LightImage, plainRgb16 } from './developedPixels.ts';

/** Formats of a picture to look at. */
export type StillFormat = 'png' | 'jpg' | 'tif';

export const STILL_MIME: Readonly<Record<StillFormat, string>> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  tif: 'image/tiff',
};

/** JPEG stream of sRGB codes. The page's own encoder or a library's: the one thing that differs between the two hosts. */
export type EncodeJpeg = (image: RgbImage<Uint8Array>) => Uint8Array | Promise<Uint8Array>;

/** Quality from 0 to 100 as JPEG encoders count it: no blocks to be seen on a plain backdrop. Common practice, no source. */
export const JPEG_QUALITY = 92;

/**
 * One picture as a file that says of what it is, how it was exposed and how far it was traced. JPEG and PNG hold 8 bits a
 * channel, TIFF 16; with `linear` no tone curve is applied (TIFF, and PNG then in 16 bits).
 */
export async function stillFile(
  light: LightImage,
  camera: Camera,
  facts: PictureFacts,
  how: { readonly format: StillFormat; readonly linear?: boolean; readonly encodeJpeg: EncodeJpeg },
): Promise<Uint8Array> {
  const { format, linear = false } = how;
  switch (format) {
    case 'png':
      return writePng(linear ? plainRgb16(light, camera) : developedRgb8(light, camera), facts);
    case 'tif':
      return writeTiff16(linear ? plainRgb16(light, camera) : developedRgb16(light, camera), facts);
    case 'jpg': {
      const image = developedRgb8(light, camera);
      return jpegWithExif(await how.encodeJpeg(image), exifBlock(facts, light.widthPx, light.heightPx));
    }
    default:
      return assertNever(format);
  }
}
