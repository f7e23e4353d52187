import { frameTables, type PaperOptions, papersPdf, setupTables } from '../../src/deliverables/papers.ts';
import { csvFromTable } from '../../src/deliverables/sheets/csv.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';
import { dayOf } from './packPlan.ts';

/** Every table as CSV, and all papers with the drawings as PDF on both papers. */
export async function packSheets(output: Output, frames: readonly PackFrame[], options: PaperOptions): Promise<void> {
  const papers = frames.map((frame) => frame.paper());
  frames.forEach(({ stem }, i) => {
    for (const table of frameTables(papers[i], options)) {
      output.write(`sheets/${stem}-${table.id}.csv`, csvFromTable(table));
    }
  });
  for (const table of setupTables(papers, options)) output.write(`sheets/${table.id}.csv`, csvFromTable(table));
  for (const paper of ['a4', 'letter'] as const) {
    output.write(`papers-${paper}.pdf`, await papersPdf(papers, paper, { ...options, madeOn: dayOf(options.date) }));
  }
}
