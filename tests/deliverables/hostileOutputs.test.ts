import { beforeAll, describe, expect, it } from 'vitest';
import { clientPage } from '../../src/deliverables/clientPage/clientPage.ts';
import { contactSheet } from '../../src/deliverables/contactSheet/contactSheet.ts';
import { writeGltf } from '../../src/deliverables/exchange/gltfFiles.ts';
import { gltfFromFrame } from '../../src/deliverables/exchange/gltfFromFrame.ts';
import { fileStem } from '../../src/deliverables/exchange/setupFile.ts';
import { writePng } from '../../src/deliverables/image/png.ts';
import { PAPER_SIZES } from '../../src/deliverables/paper/paperSize.ts';
import { svgFromSheet } from '../../src/deliverables/paper/svgFromSheet.ts';
import { frameTables, papersPdf, setupTables } from '../../src/deliverables/papers.ts';
import { drawingSheets } from '../../src/deliverables/plan/drawingSheets.ts';
import { csvFromTable } from '../../src/deliverables/sheets/csv.ts';
import type { Setup } from '../../src/document/setup.ts';
import { validateSetup } from '../../src/document/validate.ts';
import { openFrame, openPapers } from './helpers/openFrames.ts';
import { readCsv } from './helpers/readCsv.ts';
import { readMarkup } from './helpers/readMarkup.ts';
import { studioSetup } from './helpers/studioSetup.ts';

/** Texts that would fetch something, or carry a page of their own, if anything took them for more than words. */
const REACHING_OUT = [
  'http://example.invalid/pixel.gif',
  '//example.invalid/x.js',
  'url(http://example.invalid/x.png)',
  '@import "http://example.invalid/x.css";',
  'data:text/html,<script>fetch("http://example.invalid")</script>',
  'data:image/svg+xml,<svg xmlns="http://www.w3.org/2000/svg"><image href="http://example.invalid/x"/></svg>',
  '<image xlink:href="http://example.invalid/x"/>',
  '<use href="http://example.invalid/x#y"/>',
  '<link rel=stylesheet href=http://example.invalid/x>',
  '<meta http-equiv=refresh content="0;url=http://example.invalid/">',
  '</text><foreignObject><iframe src="http://example.invalid/"></iframe></foreignObject>',
  '<?xml-stylesheet href="http://example.invalid/x.xsl"?>',
  '<!DOCTYPE x [<!ENTITY e SYSTEM "http://example.invalid/x">]>&e;',
  '../../../../etc/passwd',
  'CON',
] as const;

function reachingSetup(): Setup {
  const setup = structuredClone(studioSetup());
  let next = 0;
  const text = (): string => REACHING_OUT[next++ % REACHING_OUT.length];
  for (const record of [...setup.pieces, ...setup.fixtures, ...setup.grip, ...setup.frames]) record.name = text();
  const made = validateSetup({
    ...setup,
    title: text(),
    brief: { client: text(), mood: REACHING_OUT.join('\n'), deliverables: text(), notes: REACHING_OUT.join('\n') },
  });
  if (!made.ok) throw new Error(made.error[0]?.message);
  return made.value;
}

describe('names that reach out', () => {
  const setup = reachingSetup();
  let papers: ReturnType<typeof openPapers>;
  beforeAll(() => {
    papers = openPapers(setup);
  }, 120_000);
  const png = writePng({ widthPx: 2, heightPx: 2, rgb: new Uint8Array(12) });

  it('stay words on the drawings: no attribute of the SVG points anywhere', () => {
    for (const { sheet } of drawingSheets(openFrame(setup), { paper: PAPER_SIZES.a4, date: '2026-04-18' })) {
      const { tags } = readMarkup(svgFromSheet(sheet));
      for (const { name, attributes } of tags) {
        expect(['svg', 'title', 'rect', 'path', 'circle', 'text', 'g', 'clipPath']).toContain(name);
        for (const [attribute, value] of attributes) {
          if (attribute.startsWith('xmlns')) continue;
          expect(value, `${name} ${attribute}`).not.toMatch(/example|data:|javascript|http/i);
        }
      }
    }
  });

  it('stay words on a sheet of pictures: its only addresses are pictures of its own', () => {
    const picture = { frameSet: openFrame(setup), png, widthPx: 2, heightPx: 2 };
    const [sheet] = contactSheet([picture], PAPER_SIZES.a4);
    const { tags } = readMarkup(svgFromSheet(sheet));
    const links = tags.flatMap(({ attributes }) => [...attributes].filter(([name]) => name.endsWith('href')));
    expect(links).toHaveLength(1);
    expect(links[0][1]).toMatch(/^data:image\/png;base64,[A-Za-z0-9+/]+=*$/);
  });

  it('stay words on the page of the client, with the notes on it too', () => {
    const page = clientPage({
      setup,
      date: '2026-04-18',
      showNotes: true,
      frames: [
        { png, widthPx: 2, heightPx: 2, name: setup.frames[0].name, notes: [...REACHING_OUT], alternatives: [] },
      ],
    });
    const { tags, text } = readMarkup(page);
    for (const { name, attributes } of tags) {
      expect(name).not.toMatch(/^(script|iframe|object|embed|link|image|use|svg|foreignObject|a|form|base)$/i);
      for (const [attribute, value] of attributes) {
        if (attribute === 'alt' || attribute === 'content') continue;
        expect(value, `${name} ${attribute}`).not.toMatch(/example/);
      }
    }
    for (const words of REACHING_OUT) expect(text).toContain(words);
    // The style sheet is the page's own.
    expect(/<style>([\s\S]*?)<\/style>/.exec(page)?.[1]).not.toMatch(/http|@import/);
  });

  it('stay words in the PDF: no link, no script, no action, nothing attached', async () => {
    const bytes = await papersPdf(papers, 'a4', { date: '2026-04-18', madeOn: new Date(0) });
    // Streams hold packed drawing operators, which can do none of this; any letters may turn up in them.
    const raw = Buffer.from(bytes)
      .toString('latin1')
      .replace(/stream\r?\n[\s\S]*?endstream/g, '');
    expect(raw).toContain('/Producer');
    for (const [, annotations] of raw.matchAll(/\/Annots \[([^\]]*)\]/g)) expect(annotations.trim()).toBe('');
    // ISO 32000-1: actions (12.6), annotations (12.5), embedded files (7.11.4).
    expect(raw).not.toMatch(/\/(URI|JavaScript|JS|Launch|OpenAction|AA|EmbeddedFiles|GoToR|SubmitForm|RichMedia)\b/);
  }, 60_000);

  it('stay names in the glTF, whose only data are its own', () => {
    const gltf = JSON.parse(writeGltf(gltfFromFrame(openFrame(setup))));
    for (const { uri } of [...(gltf.buffers ?? []), ...(gltf.images ?? [])]) {
      if (uri !== undefined) expect(uri).toMatch(/^data:application\/octet-stream;base64,/);
    }
  });

  it('stay cells in the tables', () => {
    const options = { date: '2026-04-18' };
    for (const table of [...papers.flatMap((paper) => frameTables(paper, options)), ...setupTables(papers, options)]) {
      const [heads, ...rows] = readCsv(csvFromTable(table));
      for (const row of rows) {
        expect(row).toHaveLength(heads.length);
        // Characters that a spreadsheet runs: OWASP, CSV injection.
        for (const cell of row) if (Number.isNaN(Number(cell))) expect(cell).not.toMatch(/^[=@\t\r]/);
      }
    }
  });

  it('make no path out of a folder in the name of a file', () => {
    for (const words of REACHING_OUT) expect(fileStem(words)).toMatch(/^[a-z0-9]([a-z0-9-]*[a-z0-9])?$/);
    expect(fileStem('CON')).not.toBe('con');
  });
});
