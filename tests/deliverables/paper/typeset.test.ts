import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toBase64 } from '../../../src/deliverables/paper/base64.ts';
import { escapeMarkup } from '../../../src/deliverables/paper/escapeMarkup.ts';
import { fitText, plainLetters, textWidthMm, wrapText } from '../../../src/deliverables/paper/typeset.ts';
import { readMarkup } from '../helpers/readMarkup.ts';

describe('text widths', () => {
  it('has the widths of Adobe’s Helvetica: digits 556, i 222, W 944 of 1000', () => {
    // AFM: at 1000 pt a digit is 556 pt wide; 1 pt is 25.4 / 72 mm.
    const mm = (thousandths: number): number => (thousandths * 10 * 25.4) / 72 / 1000;
    expect(textWidthMm('0', 10)).toBeCloseTo(mm(556), 9);
    expect(textWidthMm('i', 10)).toBeCloseTo(mm(222), 9);
    expect(textWidthMm('W', 10)).toBeCloseTo(mm(944), 9);
    expect(textWidthMm('AV', 10)).toBeCloseTo(mm(667 + 667), 9);
  });

  it('breaks lines that fit and keeps every word', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z]{1,14}$/), { maxLength: 30 }), (words) => {
        const lines = wrapText(words.join(' '), 8, 25);
        for (const line of lines) expect(textWidthMm(line, 8)).toBeLessThanOrEqual(25 + 1e-9);
        expect(lines.join('').replaceAll(' ', '')).toBe(words.join(''));
      }),
      { seed: 1 },
    );
  });

  it('cuts a line to its room with an ellipsis', () => {
    const cut = fitText('A name that is much too long', 8, 20);
    expect(cut.endsWith('\u2026')).toBe(true);
    expect(textWidthMm(cut, 8)).toBeLessThanOrEqual(20);
    expect(fitText('Short', 8, 20)).toBe('Short');
  });

  it('drops accents that the face lacks and marks what it can’t set', () => {
    expect(plainLetters('Caf\u00e9 \u0160koda')).toBe('Caf\u00e9 \u0160koda');
    expect(plainLetters('\u0109 \u8336\u0000')).toBe('c ??');
  });
});

/** Char of XML 1.0, section 2.2. */
function fitsXml(letter: string): boolean {
  const code = letter.codePointAt(0) ?? 0;
  if (code < 0x20) return code === 9 || code === 10 || code === 13;
  return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
}

describe('escapeMarkup', () => {
  it('gives back any text when a reader resolves it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (words) => {
        const { text, tags } = readMarkup(`<p>${escapeMarkup(words)}</p>`);
        expect(tags).toHaveLength(1);
        expect(text).toBe([...words].map((letter) => (fitsXml(letter) ? letter : '\ufffd')).join(''));
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  it('replaces what XML can’t hold: NUL and half a surrogate pair', () => {
    expect(escapeMarkup('a\u0000b\ud800c')).toBe('a\ufffdb\ufffdc');
  });
});

describe('toBase64', () => {
  it('agrees with Node for any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 50 }), (bytes) => {
        expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
      }),
      { seed: 3 },
    );
  });
});
