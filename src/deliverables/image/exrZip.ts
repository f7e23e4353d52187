import { unzlibSync, zlibSync } from 'fflate';

/**
 * ZIP compression of an OpenEXR block: bytes at even places first and odd places after, each replaced by its difference
 * to the one before (plus 128), then zlib. The layout document leaves this to the reference library (`Imf::Zip`), which
 * is the source of the two steps.
 */
export function compressExrBlock(raw: Uint8Array): Uint8Array {
  const half = (raw.length + 1) >> 1;
  const split = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i += 1) split[i % 2 === 0 ? i >> 1 : half + (i >> 1)] = raw[i];
  for (let i = raw.length - 1; i > 0; i -= 1) split[i] = split[i] - split[i - 1] + 128;
  return zlibSync(split, { level: 6 });
}

/** Inverse of {@link compressExrBlock}; throws when the stream is damaged or its length is not `rawLength`. */
export function expandExrBlock(packed: Uint8Array, rawLength: number): Uint8Array {
  const split = unzlibSync(packed, { out: new Uint8Array(rawLength) });
  if (split.length !== rawLength) throw new Error(`block of ${split.length} bytes instead of ${rawLength}`);
  for (let i = 1; i < rawLength; i += 1) split[i] = split[i - 1] + split[i] - 128;
  const half = (rawLength + 1) >> 1;
  const raw = new Uint8Array(rawLength);
  for (let i = 0; i < rawLength; i += 1) raw[i] = split[i % 2 === 0 ? i >> 1 : half + (i >> 1)];
  return raw;
}
