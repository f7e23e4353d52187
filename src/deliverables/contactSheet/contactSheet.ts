import type { FrameSet } from '../frameSet.ts';
import { cameraWords } from '../image/pictureFacts.ts';
import type { Sheet } from '../paper/marks.ts';
import type { PaperSize } from '../paper/paperSize.ts';
import { pictureSheets, type SheetPicture } from './pictureSheet.ts';

/** A frame as it was traced and developed. */
export interface FramePicture {
  readonly frameSet: FrameSet;
  readonly png: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** All frames side by side with their names and settings. */
export function contactSheet(pictures: readonly FramePicture[], paper: PaperSize): Sheet[] {
  const title = pictures[0] ? `${pictures[0].frameSet.setup.title}: frames` : 'Frames';
  const cells = pictures.map((picture, i) => cellOf(picture, `${i + 1}  ${picture.frameSet.frame.name}`));
  return pictureSheets(title, cells, paper);
}

/** The build-up of a frame's light: each light alone, and together with those before it. */
export function buildUpSheet(
  { setup, frame }: Pick<FrameSet, 'setup' | 'frame'>,
  steps: readonly Omit<SheetPicture, 'words'>[],
  paper: PaperSize,
): Sheet[] {
  // The first light stands alone in its row, so that from then on 'alone' is left and 'together' right.
  const cells = steps.flatMap((step, i): (SheetPicture | null)[] => {
    const cell = { ...step, words: '' };
    return i === 0 && steps.length > 1 ? [cell, null] : [cell];
  });
  return pictureSheets(`${setup.title}: ${frame.name}, light by light`, cells, paper);
}

/** Frames before and after, a row for each: another setup's picture on the left, this one's on the right. */
export function beforeAfterSheet(
  title: string,
  pairs: readonly { readonly before: FramePicture; readonly after: FramePicture }[],
  paper: PaperSize,
): Sheet[] {
  const cells = pairs.flatMap(({ before, after }) => [
    cellOf(before, `${after.frameSet.frame.name}, before`),
    cellOf(after, `${after.frameSet.frame.name}, after`),
  ]);
  return pictureSheets(`${title}: before and after`, cells, paper);
}

const cellOf = ({ frameSet, png, widthPx, heightPx }: FramePicture, name: string): SheetPicture => ({
  name,
  words: settingsWords(frameSet),
  png,
  widthPx,
  heightPx,
});

/** '85 mm, f/11, 1/50 s, ISO 200, 5600 K, focus 1409 mm'. */
export function settingsWords({ scene, frame }: FrameSet): string {
  const turn = frame.kind === 'turn' && scene.turntable ? `, turns at ${scene.turntable.rpm} rpm` : '';
  return `${cameraWords(scene.camera)}${turn}`;
}
