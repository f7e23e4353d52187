import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromBase64Url, toBase64Url } from '../../src/core/base64Url.ts';
import { emptySetup } from '../../src/document/defaults.ts';
import type { Setup } from '../../src/document/setup.ts';
import { decodeShareLink, encodeShareLink, MAX_LINK_CHARS } from '../../src/document/shareLink.ts';
import { sampleSetup } from './sampleSetup.ts';

function linkOf(setup: Setup): string {
  const link = encodeShareLink(setup);
  if (!link.ok) throw new Error(link.error.message);
  return link.value;
}

const errorKind = (hash: string): string => {
  const result = decodeShareLink(hash);
  return result.ok ? 'accepted' : result.error.kind;
};

describe('share link', () => {
  it.each([
    ['the sample', sampleSetup()],
    ['an empty setup', emptySetup()],
  ])('gives back exactly %s, from letters that need no escape in an address [L1]', (_, setup) => {
    const link = linkOf(setup);
    expect(link).toMatch(/^#setup=1\.[0-9a-f]{8}\.[A-Za-z0-9_-]+$/);
    const decoded = decodeShareLink(link);
    expect(decoded.ok && decoded.value.setup).toEqual(setup);
  });

  it('never gives another setup than was sent, when cut short or with one letter changed [L2]', () => {
    const setup = sampleSetup();
    const link = linkOf(setup);
    let refused = 0;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: link.length - 1 }), fc.constantFrom(...'AZaz09-_.#%'), (at, letter) => {
        expect(decodeShareLink(link.slice(0, at)).ok).toBe(false);
        const changed = decodeShareLink(link.slice(0, at) + letter + link.slice(at + 1));
        // Deflate ends within a byte, so a change of the spare bits at the very end may change nothing.
        if (changed.ok) expect(changed.value.setup).toEqual(setup);
        else refused += 1;
      }),
      { seed: 4, numRuns: 300 },
    );
    expect(refused).toBeGreaterThan(250);
  });

  it('refuses a link that unpacks to 10 MB, and one that is too long to look at [L3]', () => {
    const bomb = toBase64Url(deflateRawSync(Buffer.alloc(10_000_000, 0x20), { level: 9 }));
    expect(bomb.length).toBeLessThan(MAX_LINK_CHARS);
    expect(errorKind(`#setup=1.00000000.${bomb}`)).toBe('tooLarge');
    expect(errorKind(`#setup=1.00000000.${'A'.repeat(MAX_LINK_CHARS)}`)).toBe('tooLarge');
  });

  it('says so when a setup is too large for a link', () => {
    const setup = sampleSetup();
    // Noise from a linear congruence (Numerical Recipes constants): it can't be packed.
    let noise = 1;
    const letters = Array.from({ length: 10_000 }, () => {
      noise = (Math.imul(noise, 1664525) + 1013904223) >>> 0;
      return String.fromCharCode(0x3400 + (noise >>> 18));
    });
    const notes = letters.join('');
    const result = encodeShareLink({ ...setup, brief: { ...setup.brief, notes } });
    expect(result.ok || result.error).toMatchObject({ kind: 'tooLarge', message: expect.stringContaining('file') });
  });

  it.each(['', '#', '#other', '#setup=2.00000000.AAAA'])('finds no setup in "%s"', (hash) => {
    expect(errorKind(hash)).toBe('notALink');
  });
});

describe('base64url', () => {
  it('writes and reads what Node does, for any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        const text = toBase64Url(bytes);
        expect(text).toBe(Buffer.from(bytes).toString('base64url'));
        expect(fromBase64Url(text)).toEqual(bytes);
      }),
      { seed: 4648, numRuns: 300 },
    );
  });

  it.each(['A', 'AA=', 'A+AA', 'AA AA'])('refuses "%s"', (text) => {
    expect(fromBase64Url(text)).toBeNull();
  });
});
