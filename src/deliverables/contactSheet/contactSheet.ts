import { formatShutter } from '../../camera/stops.ts';
import type { FrameSet } from '../frameSet.ts';
import { box, type Mark, type PointMm, type Sheet, text } from '../paper/marks.ts';
import type { PaperSize } from '../paper/paperSize.ts';
import { fitText, wrapText } from '../paper/typeset.ts';
import { markedStop } from '../sheets/shotList.ts';

/** A frame as it was traced and developed. */
export interface FramePicture {
  readonly frameSet: FrameSet;
  readonly png: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Said of pictures whose grain was smoothed: good to look at, not to measure. */
export const PICTURE_NOTE = 'Traced from the planned set; grain smoothed, so to look at and not to measure.';

const MARGIN_MM = { side: 14, top: 15, bottom: 13 };
const GUTTER_MM = 7;
const COLUMNS = 2;
const HEADING_MM = 14;
const NAME_PT = 9;
const FACT_PT = 7;
const FACT_LINE_MM = 3.1;
/** Tall pictures are cut down to this share of the column's width. */
const MOST_TALL = 1.2;

/** All frames side by side with their names and settings, on upright pages. */
export function contactSheet(pictures: readonly FramePicture[], paper: PaperSize): Sheet[] {
  const columnMm = (paper.widthMm - 2 * MARGIN_MM.side - (COLUMNS - 1) * GUTTER_MM) / COLUMNS;
  const cells = pictures.map((picture, i) => drawCell(picture, i, columnMm));
  const sheets: Sheet[] = [];
  let marks: Mark[] = [];
  let y = MARGIN_MM.top;
  const title = pictures[0] ? `${pictures[0].frameSet.setup.title}: frames` : 'Frames';
  const open = (): void => {
    marks = [
      text([MARGIN_MM.side, MARGIN_MM.top + 4], title, 13, { weight: 'bold' }),
      text([MARGIN_MM.side, MARGIN_MM.top + 8.5], PICTURE_NOTE, 7, { grey: 0.25 }),
    ];
    y = MARGIN_MM.top + HEADING_MM;
  };
  const close = (): void => {
    sheets.push({ title, widthMm: paper.widthMm, heightMm: paper.heightMm, marks });
  };
  open();
  for (let row = 0; row < cells.length; row += COLUMNS) {
    const inRow = cells.slice(row, row + COLUMNS);
    const heightMm = Math.max(...inRow.map((cell) => cell.heightMm));
    if (y + heightMm > paper.heightMm - MARGIN_MM.bottom && y > MARGIN_MM.top + HEADING_MM) {
      close();
      open();
    }
    inRow.forEach((cell, column) => {
      marks.push(...cell.marksAt([MARGIN_MM.side + column * (columnMm + GUTTER_MM), y]));
    });
    y += heightMm + GUTTER_MM;
  }
  close();
  return sheets;
}

function drawCell({ frameSet, png, widthPx, heightPx }: FramePicture, index: number, columnMm: number) {
  const shrink = Math.min(1, MOST_TALL / (heightPx / widthPx));
  const widthMm = columnMm * shrink;
  const heightMm = (widthMm * heightPx) / widthPx;
  const name = fitText(`${index + 1}  ${frameSet.frame.name}`, NAME_PT, columnMm, 'bold');
  const facts = wrapText(settingsWords(frameSet), FACT_PT, columnMm).slice(0, 2);
  return {
    heightMm: heightMm + 5 + facts.length * FACT_LINE_MM,
    marksAt: ([x, y]: PointMm): Mark[] => [
      {
        type: 'picture',
        cornerMm: [x, y],
        widthMm,
        heightMm,
        png,
        description: frameSet.frame.name,
      },
      box([x, y], widthMm, heightMm, { stroke: { widthMm: 0.13 } }),
      text([x, y + heightMm + 4.2], name, NAME_PT, { weight: 'bold' }),
      ...facts.map((words, i) => text([x, y + heightMm + 7.8 + i * FACT_LINE_MM], words, FACT_PT, { grey: 0.2 })),
    ],
  };
}

/** '85 mm, f/11, 1/50 s, ISO 200, 5600 K, focus 1409 mm'. */
export function settingsWords({ scene, frame }: FrameSet): string {
  const { camera } = scene;
  const turn = frame.kind === 'turn' && scene.turntable ? `, turns at ${scene.turntable.rpm} rpm` : '';
  return (
    `${Number(camera.focalLengthMm.toFixed(1))} mm, ${markedStop(camera.apertureFNumber)}, ` +
    `${formatShutter(camera.shutterS)}, ISO ${camera.iso}, ${camera.whiteBalanceK} K, ` +
    `focus ${Math.round(camera.focusDistanceM * 1000)} mm${turn}`
  );
}
