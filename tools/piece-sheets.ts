/**
 * Command line: traces the contact sheets of docs/pieces.md and docs/finishes.md.
 *
 *   npx tsx tools/piece-sheets.ts --out docs/img/pieces [--sheet NAME]... [--only WORDS] [--samples 16] [--width 160]
 *       [--keep .cache/piece-sheets]
 *
 * One small set per item, built through the document and traced with one thread, then smoothed. Notes of the sets go to stderr.
 * Pictures are kept in a folder: a second run traces only what has changed since.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { writePng } from '../src/deliverables/image/png.ts';
import { createTracePool } from '../src/transport/workers/tracePool.ts';
import { nodePort } from './cli/nodePort.ts';
import { layOutSheet } from './sheets/layOutSheet.ts';
import { createPictureShelf } from './sheets/pictureShelf.ts';
import { SHEETS } from './sheets/sheetList.ts';
import { type Picture, traceItem } from './sheets/traceItem.ts';

const { values } = parseArgs({
  options: {
    out: { type: 'string', default: 'docs/img/pieces' },
    sheet: { type: 'string', multiple: true },
    only: { type: 'string' },
    samples: { type: 'string' },
    keep: { type: 'string', default: '.cache/piece-sheets' },
    width: { type: 'string' },
  },
});
const only = values.only?.toLowerCase();
mkdirSync(values.out, { recursive: true });
const shelf = createPictureShelf(values.keep);
const pool = createTracePool({ workerCount: 1, spawn: nodePort });
try {
  for (const sheet of SHEETS) {
    if (values.sheet && !values.sheet.includes(sheet.name)) continue;
    const items = sheet.items.filter(({ caption }) => !only || caption.toLowerCase().includes(only));
    if (items.length === 0) continue;
    const widthPx = Number(values.width ?? sheet.widthPx);
    const heightPx = Math.round(widthPx / sheet.aspect);
    const samples = Number(values.samples ?? sheet.samples);
    const cells: { picture: Picture; caption: string }[] = [];
    for (const item of items) {
      const picture = await traceItem(pool, item, { widthPx, heightPx }, samples, shelf, (note) =>
        process.stderr.write(`${item.caption}: ${note}\n`),
      );
      cells.push({ picture, caption: item.caption });
    }
    const path = join(values.out, `${sheet.name}.png`);
    const bytes = writePng(layOutSheet(cells, Math.min(sheet.columns, cells.length)));
    writeFileSync(path, bytes);
    process.stdout.write(`${path}  ${cells.length} pictures, ${Math.round(bytes.length / 1000)} kB\n`);
  }
} finally {
  pool.dispose();
}
