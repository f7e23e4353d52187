import { fail, ok, type Result } from '../../core/result.ts';
import { type ImageFileError, isReadableSize, MAX_SIDE_PX } from './imageFileError.ts';
import { checkRgbImage, type RgbImage } from './linearImage.ts';

/**
 * Portable float map, colour ("PF"): a text header of type, size and scale, then rows from the bottom to the top, three
 * 32-bit floats a pixel. A negative scale means little-endian. Files written here hold linear Rec. 709, D65, cd/m2,
 * scale -1.0. Source: P. Debevec, "PFM Portable FloatMap Image Format" (from memory).
 */
export function writePfm(image: RgbImage<Float32Array>): Uint8Array {
  checkRgbImage(image);
  const { widthPx, heightPx, rgb } = image;
  const header = new TextEncoder().encode(`PF\n${widthPx} ${heightPx}\n-1.0\n`);
  const bytes = new Uint8Array(header.length + rgb.length * 4);
  bytes.set(header);
  const view = new DataView(bytes.buffer);
  const rowSamples = widthPx * 3;
  let offset = header.length;
  for (let row = heightPx - 1; row >= 0; row -= 1) {
    for (let i = row * rowSamples; i < (row + 1) * rowSamples; i += 1) {
      view.setFloat32(offset, rgb[i], true);
      offset += 4;
    }
  }
  return bytes;
}

/** Reads a colour PFM of either byte order into row 0 at the top; sample values as stored, the scale is not applied. */
export function readPfm(bytes: Uint8Array): Result<RgbImage<Float32Array>, ImageFileError> {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 128));
  const match = /^PF\s+(\d+)\s+(\d+)\s+([-+]?[\d.]+(?:[eE][-+]?\d+)?)\s/.exec(head);
  if (!match) {
    return fail({
      code: 'not-this-format',
      message: 'PFM header: expected "PF", width, height and scale; use a colour PFM.',
    });
  }
  const [header, width, height, scale] = match;
  const widthPx = Number(width);
  const heightPx = Number(height);
  if (!isReadableSize(widthPx, heightPx)) {
    return fail({
      code: 'bad-size',
      message: `PFM size ${width} x ${height}: use sides of 1 to ${MAX_SIDE_PX} pixels.`,
    });
  }
  const rowSamples = widthPx * 3;
  const needed = header.length + rowSamples * heightPx * 4;
  if (bytes.length < needed) {
    return fail({ code: 'truncated', message: `PFM data: ${bytes.length} bytes of ${needed}; export the file again.` });
  }
  const littleEndian = Number(scale) < 0;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const rgb = new Float32Array(rowSamples * heightPx);
  let offset = header.length;
  for (let row = heightPx - 1; row >= 0; row -= 1) {
    for (let i = row * rowSamples; i < (row + 1) * rowSamples; i += 1) {
      rgb[i] = view.getFloat32(offset, littleEndian);
      offset += 4;
    }
  }
  return ok({ widthPx, heightPx, rgb });
}
