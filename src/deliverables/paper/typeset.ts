import { StandardFontEmbedder, StandardFonts } from 'pdf-lib';
import type { FontWeight } from './marks.ts';
import { MM_PER_PT } from './paperSize.ts';

/**
 * Widths of the two faces of the papers, Helvetica and Helvetica Bold: part of every PDF reader (ISO 32000-1 section
 * 9.6.2.2), metrics from Adobe's AFM files by way of pdf-lib. Letters are set without kerning, as PDF readers do.
 */
const FACES = {
  regular: openFace(StandardFonts.Helvetica),
  bold: openFace(StandardFonts.HelveticaBold),
};

interface Face {
  /** Width in thousandths of the type size; undefined when the face has no such letter. */
  letterWidth(letter: string): number | undefined;
}

function openFace(name: StandardFonts): Face {
  // pdf-lib types the same list of names twice, as two enums of equal strings.
  const embedder = StandardFontEmbedder.for(name as unknown as Parameters<typeof StandardFontEmbedder.for>[0]);
  const known = new Map<string, number | undefined>();
  return {
    letterWidth(letter) {
      if (known.has(letter)) return known.get(letter);
      let width: number | undefined;
      try {
        width = embedder.widthOfTextAtSize(letter, 1000);
      } catch {
        width = undefined;
      }
      known.set(letter, width);
      return width;
    },
  };
}

/** Signs that the face lacks and that have a plain way of writing. */
const PLAIN: Readonly<Record<string, string>> = {
  '\u2192': '->',
  '\u2264': '<=',
  '\u2265': '>=',
  '\u2212': '\u2013',
  '\u2032': "'",
  '\u2033': '"',
  '\u00a0': ' ',
  '\t': ' ',
  '\n': ' ',
  '\r': ' ',
};

/**
 * Text with only letters that the papers' face has (Western European, WinAnsi): accents that it lacks are dropped
 * ('\u0142' stays a question mark, '\u010d' becomes 'c'), anything else shows as '?'. SVG, HTML and CSV keep all letters.
 */
export function plainLetters(words: string): string {
  let plain = '';
  for (const letter of words) {
    const swapped = PLAIN[letter] ?? letter;
    if ([...swapped].every((one) => isPrintable(one))) plain += swapped;
    else {
      const [base] = letter.normalize('NFD');
      plain += base !== undefined && base !== letter && isPrintable(base) ? base : '?';
    }
  }
  return plain;
}

const isPrintable = (letter: string): boolean =>
  letter >= ' ' && letter !== '\u007f' && FACES.regular.letterWidth(letter) !== undefined;

/** Width of a line of text, mm. */
export function textWidthMm(words: string, sizePt: number, weight: FontWeight = 'regular'): number {
  let thousandths = 0;
  for (const letter of plainLetters(words)) thousandths += FACES[weight].letterWidth(letter) ?? 0;
  return (thousandths / 1000) * sizePt * MM_PER_PT;
}

/** Lines of at most `widthMm`, broken between words; a word that is longer by itself is broken where it must. */
export function wrapText(words: string, sizePt: number, widthMm: number, weight: FontWeight = 'regular'): string[] {
  return words.split('\n').flatMap((paragraph) => wrapParagraph(paragraph, sizePt, widthMm, weight));
}

function wrapParagraph(paragraph: string, sizePt: number, widthMm: number, weight: FontWeight): string[] {
  const fits = (line: string): boolean => textWidthMm(line, sizePt, weight) <= widthMm;
  const lines: string[] = [];
  let current = '';
  for (const word of paragraph.split(' ').filter((part) => part !== '')) {
    const joined = current === '' ? word : `${current} ${word}`;
    if (fits(joined)) {
      current = joined;
      continue;
    }
    if (current !== '') lines.push(current);
    let rest = word;
    while (!fits(rest) && [...rest].length > 1) {
      const letters = [...rest];
      let count = letters.length - 1;
      while (count > 1 && !fits(letters.slice(0, count).join(''))) count--;
      lines.push(letters.slice(0, count).join(''));
      rest = letters.slice(count).join('');
    }
    current = rest;
  }
  if (current !== '' || lines.length === 0) lines.push(current);
  return lines;
}

/** One line, cut with an ellipsis where it is too long. */
export function fitText(words: string, sizePt: number, widthMm: number, weight: FontWeight = 'regular'): string {
  if (textWidthMm(words, sizePt, weight) <= widthMm) return words;
  const letters = [...words];
  while (letters.length > 0 && textWidthMm(`${letters.join('').trimEnd()}\u2026`, sizePt, weight) > widthMm) {
    letters.pop();
  }
  return `${letters.join('').trimEnd()}\u2026`;
}
