import {
  beforeAfterSheet,
  buildUpSheet,
  contactSheet,
  type FramePicture,
} from '../../src/deliverables/contactSheet/contactSheet.ts';
import type { FrameSet } from '../../src/deliverables/frameSet.ts';
import type { Sheet } from '../../src/deliverables/paper/marks.ts';
import { PAPER_SIZES } from '../../src/deliverables/paper/paperSize.ts';
import { pdfFromSheets } from '../../src/deliverables/pdf/pdfFromSheets.ts';
import { stillFile } from '../../src/deliverables/still/stillFile.ts';
import type { BuildUpPicture, ScenePictures } from '../../src/deliverables/traced/scenePictures.ts';
import { encodeJpeg } from '../cli/encodeJpeg.ts';
import type { Alternative } from './alternatives.ts';
import type { PackFrame } from './openPackFrames.ts';
import type { Output } from './output.ts';

/**
 * Every frame as PNG, JPEG and 16-bit TIFF; all of them on a contact sheet; the light of each, light by light; and beside
 * the same frames of other setups.
 */
export async function packFrames(
  output: Output,
  frames: readonly PackFrame[],
  alternatives: readonly Alternative[],
  pictures: ScenePictures,
): Promise<void> {
  const made: FramePicture[] = [];
  for (const { stem, frameSet } of frames) {
    const picture = await pictures.ofFrame(frameSet);
    output.write(`frames/${stem}.png`, picture.png);
    const { light, facts } = await pictures.lightOf(frameSet);
    for (const format of ['jpg', 'tif'] as const) {
      output.write(
        `frames/${stem}.${format}`,
        await stillFile(light, frameSet.scene.camera, facts, { format, encodeJpeg }),
      );
    }
    made.push(picture);
  }
  const { title } = frames[0].frameSet.setup;
  const write = async (name: string, subject: string, sheetsOn: (paper: 'a4' | 'letter') => Sheet[]): Promise<void> => {
    for (const paper of ['a4', 'letter'] as const) {
      const facts = { title: `${title}: ${subject}`, subject, madeOn: new Date(0) };
      output.write(`frames/${name}-${paper}.pdf`, await pdfFromSheets(sheetsOn(paper), facts));
    }
  };
  await write('contact-sheet', 'frames', (paper) => contactSheet(made, PAPER_SIZES[paper]));
  const steps: { readonly frameSet: FrameSet; readonly pictures: readonly BuildUpPicture[] }[] = [];
  for (const { frameSet } of frames) steps.push({ frameSet, pictures: await pictures.buildUpOf(frameSet) });
  await write('light-by-light', 'light by light', (paper) =>
    steps.flatMap(({ frameSet, pictures: shown }) => buildUpSheet(frameSet, shown, PAPER_SIZES[paper])),
  );
  for (const { stem, title: other, frameOf } of alternatives) {
    const pairs: { readonly before: FramePicture; readonly after: FramePicture }[] = [];
    for (const after of made) {
      const match = frameOf(after.frameSet.frame);
      if (match) pairs.push({ before: await pictures.ofFrame(match), after });
    }
    if (pairs.length === 0) continue;
    await write(`before-after-${stem}`, `before and after, ${other}`, (paper) =>
      beforeAfterSheet(title, pairs, PAPER_SIZES[paper]),
    );
  }
}
