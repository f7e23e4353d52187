import { PAPER_SIZES, type PaperName } from '../../src/deliverables/paper/paperSize.ts';
import { svgFromSheet } from '../../src/deliverables/paper/svgFromSheet.ts';
import { lengthsOn, type PaperOptions } from '../../src/deliverables/papers.ts';
import { numberSheets } from '../../src/deliverables/pdf/numberSheets.ts';
import { pdfFromSheets } from '../../src/deliverables/pdf/pdfFromSheets.ts';
import { drawingSheets } from '../../src/deliverables/plan/drawingSheets.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';

/** Plan and elevations of every frame: an SVG for each, and all of them as PDF on both papers. */
export async function packPlan(output: Output, frames: readonly PackFrame[], options: PaperOptions): Promise<void> {
  for (const { stem, frameSet } of frames) {
    for (const { side, sheet } of drawingSheets(frameSet, { ...options, paper: PAPER_SIZES.a4 })) {
      const name = side === 'plan' ? 'plan' : `${side}-elevation`;
      output.write(`plan/${stem}-${name}.svg`, svgFromSheet(sheet));
    }
  }
  const { title } = frames[0].frameSet.setup;
  for (const paper of ['a4', 'letter'] as const satisfies readonly PaperName[]) {
    const sheets = frames.flatMap(({ frameSet }) =>
      drawingSheets(frameSet, {
        ...options,
        lengths: lengthsOn(paper, options),
        paper: PAPER_SIZES[paper],
      }).map(({ sheet }) => sheet),
    );
    const pdf = await pdfFromSheets(numberSheets(sheets, title, options.date), {
      title: `${title}: plans`,
      subject: `Plans and elevations of ${options.date}`,
      madeOn: dayOf(options.date),
    });
    output.write(`plan/plans-${paper}.pdf`, pdf);
  }
}

/** The papers carry a day, not a moment, so that the same setup on the same day gives the same files. */
export const dayOf = (date: string): Date => new Date(`${date}T00:00:00Z`);
