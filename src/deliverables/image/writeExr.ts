import { invariant } from '../../core/result.ts';
import {
  EXR_BLOCK_LINES,
  EXR_COMPRESSION,
  EXR_FLOAT,
  EXR_LONG_NAMES,
  EXR_MAGIC,
  EXR_VERSION,
  type ExrChannel,
  type ExrCompression,
  type ExrImage,
} from './exr.ts';
import { compressExrBlock } from './exrZip.ts';

/**
 * Writes a single-part scan-line OpenEXR file of 32-bit float channels.
 * Source: "OpenEXR File Layout", Academy Software Foundation, openexr.com.
 */
export function writeExr(image: ExrImage, compression: Exclude<ExrCompression, 'zips'> = 'zip'): Uint8Array {
  const channels = [...image.channels].sort((a, b) => compareNames(a.name, b.name));
  const attributes = headerAttributes(image, channels, compression);
  checkImage(image, channels, attributes);
  const longNames = [...attributes, ...channels].some(({ name }) => byteLength(name) > 31);
  const head = concat([
    ints(EXR_MAGIC, EXR_VERSION | (longNames ? EXR_LONG_NAMES : 0)),
    ...attributes.flatMap(({ name, type, value }) => [text(name), text(type), ints(value.length), value]),
    new Uint8Array(1),
  ]);
  const blocks = scanLineBlocks(image, channels, compression);
  const offsets = new DataView(new ArrayBuffer(blocks.length * 8));
  let offset = head.length + offsets.byteLength;
  blocks.forEach((block, i) => {
    offsets.setBigUint64(i * 8, BigInt(offset), true);
    offset += block.length;
  });
  return concat([head, new Uint8Array(offsets.buffer), ...blocks]);
}

interface Attribute {
  readonly name: string;
  readonly type: string;
  readonly value: Uint8Array;
}

/** In order of name, as the reference library writes them. */
function headerAttributes(image: ExrImage, channels: readonly ExrChannel[], compression: ExrCompression): Attribute[] {
  const window = ints(0, 0, image.widthPx - 1, image.heightPx - 1);
  const list: Attribute[] = [
    { name: 'channels', type: 'chlist', value: channelList(channels) },
    { name: 'compression', type: 'compression', value: Uint8Array.of(EXR_COMPRESSION[compression]) },
    { name: 'dataWindow', type: 'box2i', value: window },
    { name: 'displayWindow', type: 'box2i', value: window },
    { name: 'lineOrder', type: 'lineOrder', value: Uint8Array.of(0) },
    { name: 'pixelAspectRatio', type: 'float', value: floats(1) },
    { name: 'screenWindowCenter', type: 'v2f', value: floats(0, 0) },
    { name: 'screenWindowWidth', type: 'float', value: floats(1) },
  ];
  if (image.chromaticities) {
    list.push({ name: 'chromaticities', type: 'chromaticities', value: floats(...image.chromaticities) });
  }
  for (const [name, value] of Object.entries(image.attributes ?? {})) {
    list.push(
      typeof value === 'number'
        ? { name, type: 'float', value: floats(value) }
        : { name, type: 'string', value: new TextEncoder().encode(value) },
    );
  }
  return list.sort((a, b) => compareNames(a.name, b.name));
}

function channelList(channels: readonly ExrChannel[]): Uint8Array {
  // Name, pixel type, then pLinear and three reserved bytes as one zero int, then sampling in x and y.
  return concat([...channels.flatMap(({ name }) => [text(name), ints(EXR_FLOAT, 0, 1, 1)]), new Uint8Array(1)]);
}

function scanLineBlocks(image: ExrImage, channels: readonly ExrChannel[], compression: ExrCompression): Uint8Array[] {
  const { widthPx, heightPx } = image;
  const blocks: Uint8Array[] = [];
  for (let top = 0; top < heightPx; top += EXR_BLOCK_LINES[compression]) {
    const lines = Math.min(EXR_BLOCK_LINES[compression], heightPx - top);
    const raw = new DataView(new ArrayBuffer(lines * channels.length * widthPx * 4));
    let offset = 0;
    for (let y = top; y < top + lines; y += 1) {
      for (const { samples } of channels) {
        for (let i = y * widthPx; i < (y + 1) * widthPx; i += 1) {
          raw.setFloat32(offset, samples[i], true);
          offset += 4;
        }
      }
    }
    const plain = new Uint8Array(raw.buffer);
    const packed = compression === 'none' ? plain : compressExrBlock(plain);
    // A block that compression does not shrink is stored as it is; readers tell by its length.
    const stored = packed.length < plain.length ? packed : plain;
    blocks.push(concat([ints(top, stored.length), stored]));
  }
  return blocks;
}

function checkImage(image: ExrImage, channels: readonly ExrChannel[], attributes: readonly Attribute[]): void {
  const pixels = image.widthPx * image.heightPx;
  invariant(Number.isInteger(pixels) && pixels > 0, () => `EXR of ${image.widthPx} x ${image.heightPx}`);
  invariant(channels.length > 0, () => 'EXR without channels');
  for (const { name, samples } of channels) {
    invariant(samples.length === pixels, () => `EXR channel ${name}: ${samples.length} samples for ${pixels} pixels`);
  }
  for (const names of [channels.map((c) => c.name), attributes.map((a) => a.name)]) {
    invariant(new Set(names).size === names.length, () => `EXR names used twice in ${names.join(', ')}`);
    for (const name of names) {
      invariant(name.length > 0 && byteLength(name) <= 255 && !name.includes('\0'), () => `EXR name "${name}"`);
    }
  }
}

const compareNames = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const byteLength = (name: string): number => new TextEncoder().encode(name).length;
const text = (value: string): Uint8Array => new TextEncoder().encode(`${value}\0`);

function ints(...values: number[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * 4));
  values.forEach((value, i) => {
    view.setInt32(i * 4, value, true);
  });
  return new Uint8Array(view.buffer);
}

function floats(...values: number[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * 4));
  values.forEach((value, i) => {
    view.setFloat32(i * 4, value, true);
  });
  return new Uint8Array(view.buffer);
}

function concat(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    bytes.set(part, offset);
    offset += part.length;
  }
  return bytes;
}
