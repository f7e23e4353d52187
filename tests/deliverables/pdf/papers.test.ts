import { PDFDocument } from 'pdf-lib';
import { beforeAll, describe, expect, it } from 'vitest';
import { PAPER_SIZES, type PaperName } from '../../../src/deliverables/paper/paperSize.ts';
import { type PaperFrame, paperSheets, papersPdf } from '../../../src/deliverables/papers.ts';
import { pdfFromSheets } from '../../../src/deliverables/pdf/pdfFromSheets.ts';
import { tablePages } from '../../../src/deliverables/pdf/tablePages.ts';
import type { Table } from '../../../src/deliverables/sheets/table.ts';
import { hostileSetup } from '../helpers/hostile.ts';
import { openPapers } from '../helpers/openFrames.ts';
import { hasPoppler, pdfInfo, pdfPages } from '../helpers/readPdf.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const options = { date: '2026-04-18', madeOn: new Date('2026-04-18T00:00:00Z') };

describe('papers as PDF', () => {
  let frames: PaperFrame[];
  const files = new Map<PaperName, Uint8Array>();
  beforeAll(async () => {
    frames = openPapers(studioSetup());
    for (const paper of ['a4', 'letter'] as const) files.set(paper, await papersPdf(frames, paper, options));
  }, 120_000);
  const bytesOf = (paper: PaperName): Uint8Array => {
    const bytes = files.get(paper);
    if (!bytes) throw new Error(paper);
    return bytes;
  };

  // A4 in points is 210 / 25.4 x 72 = 595.28 by 841.89; Letter 612 by 792.
  it.each([
    ['a4', 595.276, 841.89],
    ['letter', 612, 792],
  ] as const)('has one %s page for each sheet, upright or on its side', async (paper, short, long) => {
    const pdf = await PDFDocument.load(bytesOf(paper));
    const sheets = paperSheets(frames, paper, options);
    expect(pdf.getPageCount()).toBe(sheets.length);
    const sizes = pdf.getPages().map((page) => [page.getWidth(), page.getHeight()]);
    for (const [width, height] of sizes) {
      const [a, b] = [Math.min(width, height), Math.max(width, height)];
      expect(a).toBeCloseTo(short, 1);
      expect(b).toBeCloseTo(long, 1);
    }
    expect(sizes.some(([w, h]) => w > h) && sizes.some(([w, h]) => w < h)).toBe(true);
    expect(pdf.getTitle()).toBe('Iced tea on paper');
    expect(pdf.getCreationDate()?.toISOString()).toBe('2026-04-18T00:00:00.000Z');
  });

  it('gives the same bytes for the same setup and day', async () => {
    const again = await papersPdf(openPapers(studioSetup()), 'a4', options);
    expect(Buffer.compare(again, bytesOf('a4'))).toBe(0);
  });

  it.skipIf(!hasPoppler)('is read by poppler without complaint, every page of the paper', () => {
    for (const paper of ['a4', 'letter'] as const) {
      const info = pdfInfo(bytesOf(paper));
      expect(Number(info.get('Pages'))).toBe(paperSheets(frames, paper, options).length);
      expect(info.get('Encrypted')).toBe('no');
      expect(info.get('JavaScript')).toBe('no');
      const sizes = [...info].filter(([field]) => /^Page +\d+ size$/.test(field)).map(([, value]) => value);
      expect(sizes.length).toBe(Number(info.get('Pages')));
      for (const size of sizes) expect(size).toMatch(paper === 'a4' ? /\(A4\)/ : /\(letter\)/);
    }
  });

  it.skipIf(!hasPoppler)('carries the figures of plan, schedule, kit list and meter sheet as text', () => {
    const pages = pdfPages(bytesOf('a4'));
    const page = (title: string): string => pages.find((text) => text.includes(title)) ?? '';
    const plan = pages[0];
    for (const words of ['Lighting plan', '1:20', '2026-04-18', 'A riverside tea room', '1007', 'focus 1409']) {
      expect(plan).toContain(words);
    }
    expect(plan).toContain('Verify all distances on set.');
    // Top light: 1.037 over the table, 0.139 right and 0.239 back of the meter point.
    expect(page('Fixture schedule')).toMatch(/2 +Top light +LED panel 60 x 30 cm +276 +139 +-239 +1037 +1799 +60 +78/);
    expect(page('Kit list')).toMatch(/Softbox 60 x 60 cm +1/);
    expect(page('Meter sheet: all lights')).toMatch(/dome toward the lens/);
    for (const title of ['Build order', 'Shot list', 'Cautions', 'Power', 'Stands and weights', 'Grip schedule']) {
      expect(page(title), title).not.toBe('');
    }
    pages.forEach((text, i) => {
      expect(text).toContain(`${i + 1} of ${pages.length}`);
    });
  });

  it.skipIf(!hasPoppler)(
    'sets hostile and foreign names as plain text, unknown letters as question marks',
    async () => {
      const pages = pdfPages(await papersPdf(openPapers(hostileSetup()), 'letter', options));
      const all = pages.join('\n');
      expect(all).toContain('<script>alert(1)</script>');
      // WinAnsi has the e acute; c caron becomes c; l with stroke, the ideograph and the emoji are not in it.
      expect(all).toMatch(/caf\u00e9 c\? \? \?/);
    },
  );
});

describe('tables on pages', () => {
  const table = (rows: number): Table => ({
    id: 't',
    title: 'Long list',
    columns: [
      { title: 'No.', share: 1 },
      { title: 'What', share: 5 },
    ],
    rows: Array.from({ length: rows }, (_, i) => [i + 1, `Thing ${i + 1}`]),
    notes: ['A note.'],
  });

  it('carries 100 rows over pages, each once, with the head on every page', () => {
    const pages = tablePages([table(100)], PAPER_SIZES.a4);
    expect(pages.length).toBeGreaterThan(1);
    const words = pages.map(({ marks }) => marks.flatMap((mark) => (mark.type === 'text' ? [mark.text] : [])));
    const things = words.flat().filter((text) => text.startsWith('Thing'));
    expect(things).toEqual(Array.from({ length: 100 }, (_, i) => `Thing ${i + 1}`));
    for (const page of words) expect(page).toContain('What');
    expect(words.at(-1)).toContain('A note.');
  });

  it('sets nothing below the foot margin of 15 mm', () => {
    for (const { marks, heightMm } of tablePages([table(100), table(7), table(60)], PAPER_SIZES.letter)) {
      for (const mark of marks)
        if (mark.type === 'text') expect(mark.atMm[1]).toBeLessThanOrEqual(heightMm - 15 + 0.01);
    }
  });

  it('puts two short tables on one page', () => {
    expect(tablePages([table(5), table(5)], PAPER_SIZES.a4)).toHaveLength(1);
  });

  it('makes an empty table a head and its notes', async () => {
    const pages = tablePages([table(0)], PAPER_SIZES.a4);
    expect(pages).toHaveLength(1);
    const bytes = await pdfFromSheets(pages, { title: 't', subject: 's', madeOn: new Date(0) });
    expect((await PDFDocument.load(bytes)).getPageCount()).toBe(1);
  });
});
