import { fail, ok, type Result } from '../../core/result.ts';
import {
  EXR_BLOCK_LINES,
  EXR_COMPRESSION,
  EXR_FLOAT,
  EXR_LONG_NAMES,
  EXR_MAGIC,
  EXR_VERSION,
  type ExrChromaticities,
  type ExrCompression,
  type ExrImage,
} from './exr.ts';
import { expandExrBlock } from './exrZip.ts';
import { type ImageFileError, isReadableSize } from './imageFileError.ts';

/**
 * Reads a single-part scan-line OpenEXR file whose channels are all 32-bit float, without compression or with ZIP:
 * what {@link writeExr} makes and most renderers can. Anything else is refused by name.
 */
export function readExr(bytes: Uint8Array): Result<ExrImage, ImageFileError> {
  try {
    return readFile(bytes);
  } catch {
    // Reading past the end, or a damaged zlib stream.
    return fail({ code: 'truncated', message: 'EXR data: the file is cut short or damaged; export it again.' });
  }
}

function readFile(bytes: Uint8Array): Result<ExrImage, ImageFileError> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 8 || view.getInt32(0, true) !== EXR_MAGIC) {
    return fail({ code: 'not-this-format', message: 'EXR magic number missing; this is not an OpenEXR file.' });
  }
  if ((view.getInt32(4, true) & ~EXR_LONG_NAMES) !== EXR_VERSION)
    return unsupported('tiles, several parts or deep data');
  const { attributes, end } = readAttributes(bytes, view, 8);
  const compression = compressionOf(attributes.get('compression')?.value);
  if (!compression) return unsupported('this compression; use none or ZIP');
  const window = attributes.get('dataWindow')?.value;
  const list = attributes.get('channels')?.value;
  if (!window || !list) return fail({ code: 'truncated', message: 'EXR header: channels or dataWindow is missing.' });
  const [left, top, right, bottom] = [0, 4, 8, 12].map((at) => viewOf(window).getInt32(at, true));
  const widthPx = right - left + 1;
  const heightPx = bottom - top + 1;
  if (!isReadableSize(widthPx, heightPx)) {
    return fail({ code: 'bad-size', message: `EXR dataWindow of ${widthPx} x ${heightPx} cannot be read.` });
  }
  const names = floatChannelNames(list);
  if (!names) return unsupported('channels that are not 32-bit float at full resolution');
  if (widthPx * heightPx * names.length > MAX_SAMPLES) {
    return fail({
      code: 'bad-size',
      message: `EXR of ${widthPx} x ${heightPx} with ${names.length} channels is too large.`,
    });
  }
  const channels = names.map((name) => ({ name, samples: new Float32Array(widthPx * heightPx) }));
  const linesPerBlock = EXR_BLOCK_LINES[compression];
  for (let block = 0; block * linesPerBlock < heightPx; block += 1) {
    const at = Number(view.getBigUint64(end + block * 8, true));
    const firstRow = view.getInt32(at, true) - top;
    if (firstRow !== block * linesPerBlock) throw new RangeError(`block ${block} starts at row ${firstRow}`);
    const lines = Math.min(linesPerBlock, heightPx - firstRow);
    const rawLength = lines * names.length * widthPx * 4;
    const storedLength = view.getInt32(at + 4, true);
    const stored = bytes.subarray(at + 8, at + 8 + storedLength);
    if (stored.length !== storedLength)
      throw new RangeError(`block of ${stored.length} bytes instead of ${storedLength}`);
    const raw = viewOf(storedLength < rawLength ? expandExrBlock(stored, rawLength) : stored);
    let offset = 0;
    for (let row = firstRow; row < firstRow + lines; row += 1) {
      for (const { samples } of channels) {
        for (let i = row * widthPx; i < (row + 1) * widthPx; i += 1) {
          samples[i] = raw.getFloat32(offset, true);
          offset += 4;
        }
      }
    }
  }
  return ok({ widthPx, heightPx, channels, ...readMetadata(attributes) });
}

/** Keeps a hostile header from asking for all memory. */
const MAX_SAMPLES = 2 ** 30;

const unsupported = (what: string): Result<never, ImageFileError> =>
  fail({ code: 'unsupported', message: `EXR file uses ${what}; export single-part scan lines of 32-bit floats.` });

interface RawAttribute {
  readonly type: string;
  readonly value: Uint8Array;
}

function readAttributes(bytes: Uint8Array, view: DataView, start: number) {
  const attributes = new Map<string, RawAttribute>();
  let at = start;
  while (view.getUint8(at) !== 0) {
    const name = readName(bytes, at);
    const type = readName(bytes, name.end);
    const length = view.getInt32(type.end, true);
    const from = type.end + 4;
    if (length < 0 || from + length > bytes.length) throw new RangeError(`attribute ${name.text} of ${length} bytes`);
    attributes.set(name.text, { type: type.text, value: bytes.subarray(from, from + length) });
    at = from + length;
  }
  return { attributes, end: at + 1 };
}

function readName(bytes: Uint8Array, at: number): { text: string; end: number } {
  const zero = bytes.indexOf(0, at);
  if (zero < 0) throw new RangeError('name without an end');
  return { text: new TextDecoder().decode(bytes.subarray(at, zero)), end: zero + 1 };
}

function compressionOf(value: Uint8Array | undefined): ExrCompression | undefined {
  if (value?.[0] === EXR_COMPRESSION.none) return 'none';
  if (value?.[0] === EXR_COMPRESSION.zips) return 'zips';
  return value?.[0] === EXR_COMPRESSION.zip ? 'zip' : undefined;
}

/** Names in file order, or null when a channel is of another type or subsampled. */
function floatChannelNames(list: Uint8Array): string[] | null {
  const view = viewOf(list);
  const names: string[] = [];
  let at = 0;
  while (view.getUint8(at) !== 0) {
    const { text, end } = readName(list, at);
    const plain = view.getInt32(end + 8, true) === 1 && view.getInt32(end + 12, true) === 1;
    if (view.getInt32(end, true) !== EXR_FLOAT || !plain) return null;
    names.push(text);
    at = end + 16;
  }
  return names;
}

function readMetadata(attributes: ReadonlyMap<string, RawAttribute>): Pick<ExrImage, 'chromaticities' | 'attributes'> {
  const free: Record<string, string | number> = {};
  let chromaticities: ExrChromaticities | undefined;
  for (const [name, { type, value }] of attributes) {
    if (type === 'string') free[name] = new TextDecoder().decode(value);
    else if (type === 'float' && !OWN_FLOATS.has(name)) free[name] = viewOf(value).getFloat32(0, true);
    else if (type === 'chromaticities') {
      const at = (i: number): number => viewOf(value).getFloat32(i * 4, true);
      chromaticities = [at(0), at(1), at(2), at(3), at(4), at(5), at(6), at(7)];
    }
  }
  return { ...(chromaticities ? { chromaticities } : {}), attributes: free };
}

const OWN_FLOATS = new Set(['pixelAspectRatio', 'screenWindowWidth']);

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
