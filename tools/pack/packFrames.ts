import { contactSheet } from '../../src/deliverables/contactSheet/contactSheet.ts';
import { PAPER_SIZES } from '../../src/deliverables/paper/paperSize.ts';
import { pdfFromSheets } from '../../src/deliverables/pdf/pdfFromSheets.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';
import type { Pictures } from './pictures.ts';

/** Every frame as PNG, and all of them on a contact sheet. */
export async function packFrames(output: Output, frames: readonly PackFrame[], pictures: Pictures): Promise<void> {
  const made = [];
  for (const { stem, frameSet } of frames) {
    const picture = await pictures.ofFrame(frameSet);
    output.write(`frames/${stem}.png`, picture.png);
    made.push(picture);
  }
  const { title } = frames[0].frameSet.setup;
  for (const paper of ['a4', 'letter'] as const) {
    const facts = { title: `${title}: frames`, subject: 'Contact sheet', madeOn: new Date(0) };
    output.write(
      `frames/contact-sheet-${paper}.pdf`,
      await pdfFromSheets(contactSheet(made, PAPER_SIZES[paper]), facts),
    );
  }
}
