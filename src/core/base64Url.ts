const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

/** Value of each ASCII digit, -1 for all else. */
const VALUES = Int8Array.from({ length: 128 }, (_, code) => DIGITS.indexOf(String.fromCharCode(code)));

/** Base64url without padding, RFC 4648 section 5. Written out because pure code has no `btoa`. */
export function toBase64Url(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const group = [bytes[i] ?? 0, bytes[i + 1] ?? 0, bytes[i + 2] ?? 0] as const;
    const word = (group[0] << 16) | (group[1] << 8) | group[2];
    const digits = [word >> 18, (word >> 12) & 63, (word >> 6) & 63, word & 63].map((value) => DIGITS.charAt(value));
    text += digits.slice(0, Math.min(bytes.length - i, 3) + 1).join('');
  }
  return text;
}

/** Null when the text is not base64url. */
export function fromBase64Url(text: string): Uint8Array | null {
  if (text.length % 4 === 1) return null;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let bits = 0;
  let pending = 0;
  let at = 0;
  for (const digit of text) {
    const value = VALUES[digit.charCodeAt(0)] ?? -1;
    if (value < 0) return null;
    bits = ((bits << 6) | value) & 0xffff;
    pending += 6;
    if (pending >= 8) {
      pending -= 8;
      bytes[at] = (bits >> pending) & 0xff;
      at += 1;
    }
  }
  // Bits past the last byte are 0 in all that an encoder writes (RFC 4648 section 3.5).
  return (bits & ((1 << pending) - 1)) === 0 ? bytes : null;
}
