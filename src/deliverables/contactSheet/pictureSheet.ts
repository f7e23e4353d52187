import { box, type Mark, type PointMm, type Sheet, text } from '../paper/marks.ts';
import type { PaperSize } from '../paper/paperSize.ts';
import { fitText, wrapText } from '../paper/typeset.ts';

/** A picture on paper with its name and a line or two under it. */
export interface SheetPicture {
  readonly name: string;
  readonly words: string;
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

/** Pictures side by side with their names, on upright pages, row by row; null leaves a place free. */
export function pictureSheets(
  title: string,
  pictures: readonly (SheetPicture | null)[],
  paper: PaperSize,
  note = PICTURE_NOTE,
): Sheet[] {
  const columnMm = (paper.widthMm - 2 * MARGIN_MM.side - (COLUMNS - 1) * GUTTER_MM) / COLUMNS;
  const cells = pictures.map((picture) => (picture ? drawCell(picture, columnMm) : EMPTY_CELL));
  const sheets: Sheet[] = [];
  let marks: Mark[] = [];
  let y = MARGIN_MM.top;
  const open = (): void => {
    const roomMm = paper.widthMm - 2 * MARGIN_MM.side;
    marks = [
      text([MARGIN_MM.side, MARGIN_MM.top + 4], fitText(title, 13, roomMm, 'bold'), 13, { weight: 'bold' }),
      text([MARGIN_MM.side, MARGIN_MM.top + 8.5], fitText(note, 7, roomMm), 7, { grey: 0.25 }),
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

interface DrawnCell {
  readonly heightMm: number;
  readonly marksAt: (corner: PointMm) => Mark[];
}
const EMPTY_CELL: DrawnCell = { heightMm: 0, marksAt: () => [] };

function drawCell({ name, words, png, widthPx, heightPx }: SheetPicture, columnMm: number): DrawnCell {
  const shrink = Math.min(1, MOST_TALL / (heightPx / widthPx));
  const widthMm = columnMm * shrink;
  const heightMm = (widthMm * heightPx) / widthPx;
  const title = fitText(name, NAME_PT, columnMm, 'bold');
  const facts = words === '' ? [] : wrapText(words, FACT_PT, columnMm).slice(0, 2);
  return {
    heightMm: heightMm + 5 + facts.length * FACT_LINE_MM,
    marksAt: ([x, y]: PointMm): Mark[] => [
      { type: 'picture', cornerMm: [x, y], widthMm, heightMm, png, description: name },
      box([x, y], widthMm, heightMm, { stroke: { widthMm: 0.13 } }),
      text([x, y + heightMm + 4.2], title, NAME_PT, { weight: 'bold' }),
      ...facts.map((line, i) => text([x, y + heightMm + 7.8 + i * FACT_LINE_MM], line, FACT_PT, { grey: 0.2 })),
    ],
  };
}
