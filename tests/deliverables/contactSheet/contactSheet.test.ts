import { PDFDocument } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { contactSheet } from '../../../src/deliverables/contactSheet/contactSheet.ts';
import { writePng } from '../../../src/deliverables/image/png.ts';
import { PAPER_SIZES } from '../../../src/deliverables/paper/paperSize.ts';
import { svgFromSheet } from '../../../src/deliverables/paper/svgFromSheet.ts';
import { pdfFromSheets } from '../../../src/deliverables/pdf/pdfFromSheets.ts';
import { openFrames } from '../helpers/openFrames.ts';
import { readMarkup } from '../helpers/readMarkup.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const [wide, turn] = openFrames(studioSetup());
const png = writePng({ widthPx: 6, heightPx: 4, rgb: new Uint8Array(72).fill(90) });
const picture = (frameSet: typeof wide, widthPx = 6, heightPx = 4) => ({ frameSet, png, widthPx, heightPx });

describe('contactSheet', () => {
  it('sets pictures in two columns at their own shape with name and settings', () => {
    const [sheet] = contactSheet([picture(wide), picture(turn)], PAPER_SIZES.a4);
    const pictures = sheet.marks.filter((mark) => mark.type === 'picture');
    expect(pictures).toHaveLength(2);
    for (const { widthMm, heightMm } of pictures) expect(widthMm / heightMm).toBeCloseTo(1.5, 9);
    expect(pictures[0].cornerMm[1]).toBe(pictures[1].cornerMm[1]);
    const words = sheet.marks.flatMap((mark) => (mark.type === 'text' ? [mark.text] : []));
    expect(words).toContain('1  Wide');
    expect(words).toContain('85 mm, f/11, 1/50 s, ISO 200, 5600 K, focus 1409 mm');
  });

  it('goes on to further pages, every frame once, nothing off the paper', async () => {
    const many = Array.from({ length: 17 }, (_, i) => picture(i % 2 ? wide : turn, 4, i % 3 ? 4 : 9));
    const sheets = contactSheet(many, PAPER_SIZES.letter);
    expect(sheets.length).toBeGreaterThan(1);
    const pictures = sheets.flatMap(({ marks }) => marks).filter((mark) => mark.type === 'picture');
    expect(pictures).toHaveLength(17);
    for (const { cornerMm, widthMm, heightMm } of pictures) {
      expect(cornerMm[0] + widthMm).toBeLessThanOrEqual(PAPER_SIZES.letter.widthMm - 13.9);
      expect(cornerMm[1] + heightMm).toBeLessThanOrEqual(PAPER_SIZES.letter.heightMm - 13);
    }
    const pdf = await pdfFromSheets(sheets, { title: 't', subject: 's', madeOn: new Date(0) });
    expect((await PDFDocument.load(pdf)).getPageCount()).toBe(sheets.length);
    readMarkup(svgFromSheet(sheets[0]));
  });
});
