/** Tag directories of TIFF 6.0 (section 2), little-endian: what a TIFF file and an Exif block are both made of. */

export type TagValue =
  | { readonly type: 'ascii'; readonly text: string }
  | { readonly type: 'short' | 'long'; readonly values: readonly number[] }
  /** Unsigned numerators and denominators. */
  | { readonly type: 'rational'; readonly values: readonly (readonly [number, number])[] }
  | { readonly type: 'undefined'; readonly bytes: Uint8Array };

export interface Tag {
  readonly tag: number;
  readonly value: TagValue;
}

/** Type codes and sizes of TIFF 6.0, section 2. */
const TYPES = {
  ascii: { code: 2, sizeBytes: 1 },
  short: { code: 3, sizeBytes: 2 },
  long: { code: 4, sizeBytes: 4 },
  rational: { code: 5, sizeBytes: 8 },
  undefined: { code: 7, sizeBytes: 1 },
} as const;
const ENTRY_BYTES = 12;
/** Byte order "II", the number 42, and the place of the first directory. */
export const TIFF_HEADER_BYTES = 8;

export const short = (tag: number, ...values: number[]): Tag => ({ tag, value: { type: 'short', values } });
export const long = (tag: number, ...values: number[]): Tag => ({ tag, value: { type: 'long', values } });
export const rational = (tag: number, numerator: number, denominator: number): Tag => ({
  tag,
  value: { type: 'rational', values: [[numerator, denominator]] },
});
/** 7-bit text, as the type demands: other letters show as '?'. */
export const ascii = (tag: number, text: string): Tag => ({
  tag,
  value: {
    type: 'ascii',
    text: text
      .normalize('NFKD')
      .replace(/[\u0300-\u036f]/g, '')
      .replace(/[^\n\x20-\x7e]/g, '?'),
  },
});

export const headerBytes = (firstDirectoryAt: number): Uint8Array => {
  const bytes = new Uint8Array(TIFF_HEADER_BYTES);
  const view = new DataView(bytes.buffer);
  bytes.set([0x49, 0x49]);
  view.setUint16(2, 42, true);
  view.setUint32(4, firstDirectoryAt, true);
  return bytes;
};

/** Bytes that a directory takes with the values that do not fit its entries. */
export const directoryBytes = (tags: readonly Tag[]): number =>
  2 + tags.length * ENTRY_BYTES + 4 + tags.reduce((sum, { value }) => sum + outsideBytes(value), 0);

/**
 * A directory that begins at `at` of the file, followed by its long values; no directory after it. Tags are put in
 * ascending order, as the standard demands.
 */
export function encodeDirectory(tags: readonly Tag[], at: number): Uint8Array {
  const sorted = [...tags].sort((a, b) => a.tag - b.tag);
  const bytes = new Uint8Array(directoryBytes(sorted));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, sorted.length, true);
  let outside = 2 + sorted.length * ENTRY_BYTES + 4;
  sorted.forEach(({ tag, value }, i) => {
    const entry = 2 + i * ENTRY_BYTES;
    view.setUint16(entry, tag, true);
    view.setUint16(entry + 2, TYPES[value.type].code, true);
    view.setUint32(entry + 4, countOf(value), true);
    const data = dataOf(value);
    if (data.length <= 4) bytes.set(data, entry + 8);
    else {
      view.setUint32(entry + 8, at + outside, true);
      bytes.set(data, outside);
      outside += outsideBytes(value);
    }
  });
  return bytes;
}

function countOf(value: TagValue): number {
  if (value.type === 'ascii') return value.text.length + 1;
  return value.type === 'undefined' ? value.bytes.length : value.values.length;
}

/** Long values begin on an even byte. */
function outsideBytes(value: TagValue): number {
  const size = countOf(value) * TYPES[value.type].sizeBytes;
  return size <= 4 ? 0 : size + (size % 2);
}

function dataOf(value: TagValue): Uint8Array {
  const bytes = new Uint8Array(countOf(value) * TYPES[value.type].sizeBytes);
  const view = new DataView(bytes.buffer);
  switch (value.type) {
    case 'ascii':
      for (let i = 0; i < value.text.length; i++) bytes[i] = value.text.charCodeAt(i);
      break;
    case 'short':
      value.values.forEach((v, i) => {
        view.setUint16(2 * i, v, true);
      });
      break;
    case 'long':
      value.values.forEach((v, i) => {
        view.setUint32(4 * i, v, true);
      });
      break;
    case 'rational':
      value.values.forEach(([numerator, denominator], i) => {
        view.setUint32(8 * i, numerator, true);
        view.setUint32(8 * i + 4, denominator, true);
      });
      break;
    case 'undefined':
      bytes.set(value.bytes);
  }
  return bytes;
}
