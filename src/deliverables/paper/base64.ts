const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Base64 with padding (RFC 4648 section 4). */
export function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const word = (bytes[i] << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const left = bytes.length - i;
    parts.push(
      DIGITS[word >> 18] +
        DIGITS[(word >> 12) & 63] +
        (left > 1 ? DIGITS[(word >> 6) & 63] : '=') +
        (left > 2 ? DIGITS[word & 63] : '='),
    );
  }
  return parts.join('');
}
