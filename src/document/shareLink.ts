import { deflateSync, Inflate, strFromU8, strToU8 } from 'fflate';
import { fromBase64Url, toBase64Url } from '../core/base64Url.ts';
import { fail, ok, type Result } from '../core/result.ts';
import { inSchemaOrder, type ParsedSetup, parseSetup, type SetupError } from './codec.ts';
import { hashText } from './hash.ts';
import type { Setup } from './setup.ts';

export type ShareLinkError =
  | { readonly kind: 'notALink'; readonly message: string }
  | { readonly kind: 'damaged'; readonly message: string }
  | { readonly kind: 'tooLarge'; readonly message: string }
  | SetupError;

/** Longer addresses are cut by some mail and chat programs. */
export const MAX_LINK_CHARS = 16_000;
/** A link that swells to more than this when unpacked is not a small setup. */
export const MAX_LINK_BYTES = 512 * 1024;

const PREFIX = '#setup=1.';
const CHECK_DIGITS = 8;
/** Deflate can swell 1032-fold (RFC 1951), so this much input makes at most half a megabyte between two looks. */
const SLICE_BYTES = 512;

/**
 * A setup as the hash part of an address: `#setup=1.` + 8 digits of the FNV-1a hash of the text + `.` + the text as
 * raw deflate (RFC 1951) in base64url without padding (RFC 4648 section 5).
 */
export function encodeShareLink(setup: Setup): Result<string, ShareLinkError> {
  const text = JSON.stringify(inSchemaOrder(setup));
  const packed = toBase64Url(deflateSync(strToU8(text), { level: 9 }));
  const link = `${PREFIX}${hashText(text).slice(0, CHECK_DIGITS)}.${packed}`;
  if (link.length <= MAX_LINK_CHARS) return ok(link);
  const message = `This setup is too large for a link (${link.length} characters; ${MAX_LINK_CHARS} at most): send the file instead.`;
  return fail({ kind: 'tooLarge', message });
}

/** Reads the hash part of an address. Bounded in time and memory whatever it holds. */
export function decodeShareLink(hash: string): Result<ParsedSetup, ShareLinkError> {
  if (!hash.startsWith(PREFIX)) return fail({ kind: 'notALink', message: 'The address holds no setup.' });
  if (hash.length > MAX_LINK_CHARS) {
    return fail({ kind: 'tooLarge', message: `The link is too long: ${MAX_LINK_CHARS} characters at most.` });
  }
  const [check, packed] = hash.slice(PREFIX.length).split('.');
  const bytes = packed === undefined ? null : fromBase64Url(packed);
  const damaged = fail({
    kind: 'damaged',
    message: 'The link is damaged, perhaps cut short: copy it again as a whole.',
  } as const);
  if (bytes === null) return damaged;
  const unpacked = inflateBounded(bytes);
  if (unpacked === 'tooLarge') {
    return fail({ kind: 'tooLarge', message: 'The link unpacks to more than a small setup can be; it is refused.' });
  }
  if (unpacked === null) return damaged;
  const text = strFromU8(unpacked);
  return hashText(text).slice(0, CHECK_DIGITS) === check ? parseSetup(text) : damaged;
}

/** Null when the bytes are no whole deflate stream. */
function inflateBounded(bytes: Uint8Array): Uint8Array | 'tooLarge' | null {
  const chunks: Uint8Array[] = [];
  let size = 0;
  let ended = false;
  const inflate = new Inflate((chunk, final) => {
    size += chunk.length;
    ended = final;
    if (size <= MAX_LINK_BYTES) chunks.push(chunk);
  });
  try {
    for (let at = 0; at < bytes.length && size <= MAX_LINK_BYTES; at += SLICE_BYTES) {
      inflate.push(bytes.subarray(at, at + SLICE_BYTES), at + SLICE_BYTES >= bytes.length);
    }
  } catch {
    return null;
  }
  if (size > MAX_LINK_BYTES) return 'tooLarge';
  if (!ended) return null;
  const whole = new Uint8Array(size);
  let offset = 0;
  for (const chunk of chunks) {
    whole.set(chunk, offset);
    offset += chunk.length;
  }
  return whole;
}
