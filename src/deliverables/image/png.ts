import { encode } from 'fast-png';
import { exifBlock } from './exif.ts';
import { checkRgbImage, type RgbImage } from './linearImage.ts';
import { factTexts, type PictureFacts } from './pictureFacts.ts';

/**
 * PNG of display-ready sRGB code values: 8 bits a channel from `Uint8Array`, 16 from `Uint16Array`; with `facts` as text
 * and Exif chunks. Source: ISO/IEC 15948, through the encoder of fast-png; chunks eXIf, sRGB, tEXt and iTXt added here
 * (PNG 3rd edition, 11.3).
 */
export function writePng(
  image: RgbImage<Uint8Array | Uint8ClampedArray | Uint16Array>,
  facts?: PictureFacts,
): Uint8Array {
  checkRgbImage(image);
  const { widthPx, heightPx, rgb } = image;
  const depth = rgb instanceof Uint16Array ? 16 : 8;
  const bytes = encode({ width: widthPx, height: heightPx, data: rgb, channels: 3, depth });
  if (!facts) return bytes;
  return withChunks(bytes, [
    // Rendering intent 0: perceptual.
    chunk('sRGB', Uint8Array.of(0)),
    ...Object.entries(factTexts(facts)).map(([keyword, text]) => textChunk(keyword, text)),
    chunk('eXIf', exifBlock(facts, widthPx, heightPx)),
  ]);
}

/** Signature, then length, type, 13 bytes and check of the header. */
const HEADER_END = 8 + 4 + 4 + 13 + 4;

function withChunks(png: Uint8Array, chunks: readonly Uint8Array[]): Uint8Array {
  const added = chunks.reduce((sum, { length }) => sum + length, 0);
  const whole = new Uint8Array(png.length + added);
  whole.set(png.subarray(0, HEADER_END));
  let at = HEADER_END;
  for (const bytes of chunks) {
    whole.set(bytes, at);
    at += bytes.length;
  }
  whole.set(png.subarray(HEADER_END), at);
  return whole;
}

/** Latin-1 text as tEXt, any other as iTXt (UTF-8, not compressed, no language named). */
function textChunk(keyword: string, words: string): Uint8Array {
  const text = words.replaceAll('\0', '');
  const isLatin = /^[\n\x20-\x7e\xa1-\xff]*$/.test(text);
  return isLatin
    ? chunk('tEXt', latin(`${keyword}\0${text}`))
    : chunk('iTXt', Uint8Array.of(...latin(`${keyword}\0\0\0\0\0`), ...new TextEncoder().encode(text)));
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  bytes.set(latin(type), 4);
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
  return bytes;
}

/** Cyclic redundancy check of ISO 3309, as PNG's annex D. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const latin = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
