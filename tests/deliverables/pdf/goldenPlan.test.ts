import { beforeAll, describe, expect, it } from 'vitest';
import { PAPER_SIZES } from '../../../src/deliverables/paper/paperSize.ts';
import { pdfFromSheets } from '../../../src/deliverables/pdf/pdfFromSheets.ts';
import { drawingSheets } from '../../../src/deliverables/plan/drawingSheets.ts';
import { lengthWords } from '../../../src/deliverables/plan/lengthWords.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { type ReadPage, readPdfJs } from '../helpers/readPdfJs.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const MM_PER_PT = 25.4 / 72;
const setup = studioSetup();
/** As the papers' face sets it, with plain spaces. */
const feet = (lengthM: number): string => lengthWords(lengthM, 'feet').replaceAll('\u00a0', ' ');
const [sx, , sz] = setup.subject.meterPointM;

/* The printed plan, read by pdf.js: what stands on the paper against the setup, not against the drawing code. */
describe.each([
  ['a4', 'mm', 297, 210],
  ['letter', 'feet', 279.4, 215.9],
] as const)('plan on %s in %s', (paper, lengths, widthMm, heightMm) => {
  let pages: ReadPage[];
  let denominator: number;
  beforeAll(async () => {
    const sheets = drawingSheets(openFrame(setup), { paper: PAPER_SIZES[paper], date: '2026-04-18', lengths });
    denominator = sheets[0].denominator;
    pages = await readPdfJs(
      await pdfFromSheets(
        sheets.map(({ sheet }) => sheet),
        { title: 't', subject: 's', madeOn: new Date(0) },
      ),
    );
  }, 120_000);
  const words = (page: number): string[] => pages[page].texts.map(({ text }) => text);

  it('is the size of the paper on its side, three pages', () => {
    expect(pages).toHaveLength(3);
    for (const { widthPt, heightPt } of pages) {
      expect(widthPt * MM_PER_PT).toBeCloseTo(widthMm, 1);
      expect(heightPt * MM_PER_PT).toBeCloseTo(heightMm, 1);
    }
  });

  it('prints the level distance of every light and of the camera to the millimetre, or to a sixteenth of an inch', () => {
    const printed = words(0);
    for (const { positionM } of [...setup.fixtures, setup.frames[0].camera]) {
      const levelM = Math.hypot(positionM[0] - sx, positionM[2] - sz);
      const wanted = lengths === 'mm' ? String(Math.round(levelM * 1000)) : feet(levelM);
      expect(printed, wanted).toContain(wanted);
    }
  });

  it('prints every place from the subject, camera right and toward the camera, and every height', () => {
    const signed = (m: number): string => {
      const figure = lengths === 'mm' ? String(Math.abs(Math.round(m * 1000))) : feet(Math.abs(m));
      // The papers' face has no minus sign: an en dash stands for it.
      return figure === '0' || figure === '0"' ? figure : `${m > 0 ? '+' : '\u2013'}${figure}`;
    };
    const marks = ['1', '2', '3', '4', '5', '6'];
    setup.fixtures.forEach(({ positionM }, i) => {
      const [x, y, z] = positionM;
      for (const [page, figure] of [
        [0, signed(x - sx)],
        [0, signed(z - sz)],
        [1, signed(y)],
        [2, signed(y)],
      ] as const) {
        expect(words(page).join('|').replace(/ +/g, ' '), `${marks[i]} ${figure}`).toContain(`${marks[i]} ${figure}`);
      }
    });
  });

  it('draws the scale bar as long as its last figure says at the printed scale', () => {
    // The bar is 1.6 mm high; nothing else is.
    const bar = pages[0].pathBoxes.filter(([, y0, , y1]) => Math.abs((y1 - y0) * MM_PER_PT - 1.6) < 0.02);
    expect(bar.length).toBeGreaterThanOrEqual(4);
    const lengthMm = (Math.max(...bar.map(([, , x1]) => x1)) - Math.min(...bar.map(([x0]) => x0))) * MM_PER_PT;
    const last = pages[0].texts
      .filter(({ text }) => (lengths === 'mm' ? / m$/.test(text) : /^\d+'$|^\d+"$/.test(text)))
      .sort((a, b) => b.x - a.x)[0];
    const saidM = last.text.endsWith("'")
      ? Number.parseFloat(last.text) * 0.3048
      : Number.parseFloat(last.text) * (last.text.endsWith('"') ? 0.0254 : 1);
    expect((lengthMm * denominator) / 1000).toBeCloseTo(saidM, 3);
    const scale = lengths === 'mm' ? `1:${denominator}` : { 16: '3/4" = 1\'', 24: '1/2" = 1\'' }[denominator];
    expect(words(0)).toContain(scale);
  });
});
