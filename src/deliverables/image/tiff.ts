import { encodeDirectories } from './exif.ts';
import { checkRgbImage, type RgbImage } from './linearImage.ts';
import type { PictureFacts } from './pictureFacts.ts';
import { headerBytes, long, rational, short, TIFF_HEADER_BYTES } from './tiffTags.ts';

const PRINT_PX_PER_INCH = 300;

/**
 * Baseline TIFF of display-ready sRGB, 16 bits a channel, chunky, not compressed, one strip, with the facts as Exif. Source:
 * TIFF 6.0 (Adobe, 1992), sections 2 to 6; little-endian. Any program that edits photographs opens it.
 */
export function writeTiff16(image: RgbImage<Uint16Array>, facts: PictureFacts): Uint8Array {
  checkRgbImage(image);
  const { widthPx, heightPx, rgb } = image;
  const pictureBytes = rgb.length * 2;
  const directoriesAt = TIFF_HEADER_BYTES + pictureBytes;
  const directories = encodeDirectories(facts, widthPx, heightPx, directoriesAt, [
    long(256, widthPx),
    long(257, heightPx),
    short(258, 16, 16, 16),
    // Not compressed; RGB.
    short(259, 1),
    short(262, 2),
    long(273, TIFF_HEADER_BYTES),
    short(274, 1),
    short(277, 3),
    long(278, heightPx),
    long(279, pictureBytes),
    rational(282, PRINT_PX_PER_INCH, 1),
    rational(283, PRINT_PX_PER_INCH, 1),
    short(284, 1),
    // Resolution in inches.
    short(296, 2),
  ]);
  const file = new Uint8Array(directoriesAt + directories.length);
  file.set(headerBytes(directoriesAt));
  const view = new DataView(file.buffer);
  for (let i = 0; i < rgb.length; i++) view.setUint16(TIFF_HEADER_BYTES + 2 * i, rgb[i], true);
  file.set(directories, directoriesAt);
  return file;
}
