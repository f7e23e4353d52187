import { box, line, type Mark, type PointMm, text } from '../paper/marks.ts';
import type { PaperSize } from '../paper/paperSize.ts';
import { fitText, textWidthMm } from '../paper/typeset.ts';
import { scaleBarParts, scaleWords } from './drawingScale.ts';
import { type LengthUnits, lengthWords } from './lengthWords.ts';

/** The parts of a drawing sheet, mm. */
export interface SheetFrame {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
  /** Room for the drawing with its dimensions. */
  readonly window: Area;
  /** Column beside it for the list of marks. */
  readonly column: Area;
}

export interface Area {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** What the title block says. */
export interface TitleBlock {
  readonly setup: string;
  readonly frame: string;
  readonly client: string;
  readonly sheet: string;
  /** As it is to be printed; the drawing does not know the day. */
  readonly date: string;
  readonly denominator: number;
  readonly lengths: LengthUnits;
}

const MARGIN_MM = 8;
const COLUMN_MM = 82;
const BLOCK_ROW_MM = 7.5;
export const VERIFY_NOTE = 'Verify all distances on set. Scale holds when printed at 100 %.';

/** Border, column and title block of a sheet that lies on its side. */
export function drawSheetFrame(paper: PaperSize, title: TitleBlock): SheetFrame {
  const widthMm = paper.heightMm;
  const heightMm = paper.widthMm;
  const right = widthMm - MARGIN_MM;
  const bottom = heightMm - MARGIN_MM;
  const split = right - COLUMN_MM;
  const rows: readonly (readonly (readonly [string, string])[])[] = [
    [['Setup', title.setup]],
    title.client === ''
      ? [['Frame', title.frame]]
      : [
          ['Frame', title.frame],
          ['Client', title.client],
        ],
    [['Sheet', title.sheet]],
    [
      ['Scale', scaleWords(title.denominator, title.lengths)],
      ['Paper', paper.name],
      ['Lengths', title.lengths === 'feet' ? 'feet, inches' : 'mm'],
      ['Date', title.date],
    ],
  ];
  const blockTop = bottom - rows.length * BLOCK_ROW_MM - 6.5;
  const marks: Mark[] = [
    box([MARGIN_MM, MARGIN_MM], widthMm - 2 * MARGIN_MM, heightMm - 2 * MARGIN_MM, { stroke: { widthMm: 0.5 } }),
    line(
      [
        [split, MARGIN_MM],
        [split, bottom],
      ],
      { widthMm: 0.25 },
    ),
    line(
      [
        [split, blockTop],
        [right, blockTop],
      ],
      { widthMm: 0.5 },
    ),
    ...rows.flatMap((cells, i) => titleRow(cells, [split, blockTop + i * BLOCK_ROW_MM])),
    text([split + 2.5, bottom - 2.4], VERIFY_NOTE, 6.8, { weight: 'bold' }),
  ];
  return {
    widthMm,
    heightMm,
    marks,
    window: { xMm: MARGIN_MM, yMm: MARGIN_MM, widthMm: split - MARGIN_MM, heightMm: heightMm - 2 * MARGIN_MM },
    column: { xMm: split, yMm: MARGIN_MM, widthMm: COLUMN_MM, heightMm: blockTop - MARGIN_MM },
  };
}

function titleRow(cells: readonly (readonly [string, string])[], [x, y]: PointMm): Mark[] {
  const cellMm = COLUMN_MM / cells.length;
  return [
    ...cells.flatMap(([label, value], i): Mark[] => [
      text([x + i * cellMm + 2.5, y + 2.6], label, 5, { grey: 0.35 }),
      text([x + i * cellMm + 2.5, y + 6.1], fitText(value, 8.5, cellMm - 3, 'bold'), 8.5, { weight: 'bold' }),
    ]),
    ...cells.slice(1).map(
      (_, i): Mark =>
        line(
          [
            [x + (i + 1) * cellMm, y],
            [x + (i + 1) * cellMm, y + BLOCK_ROW_MM],
          ],
          { widthMm: 0.13 },
        ),
    ),
    line(
      [
        [x, y + BLOCK_ROW_MM],
        [x + COLUMN_MM, y + BLOCK_ROW_MM],
      ],
      { widthMm: 0.13 },
    ),
  ];
}

/** A bar of black and white parts with the full-size lengths at its joints. */
export function drawScaleBar(
  denominator: number,
  [x, y]: PointMm,
  mostMm: number,
  lengths: LengthUnits = 'mm',
): Mark[] {
  const { lengthM, parts } = scaleBarParts(denominator, mostMm, lengths);
  const partMm = (lengthM * 1000) / denominator / parts;
  const label = (i: number): string => {
    const m = (lengthM * i) / parts;
    if (lengths === 'feet') return i === 0 ? '0' : lengthWords(m, lengths).replace(/\s0"$/, '');
    return i === parts ? `${Number(m.toFixed(2))} m` : String(Number(m.toFixed(2)));
  };
  return Array.from({ length: parts + 1 }, (_, i) => i).flatMap((i): Mark[] => {
    const at = x + i * partMm;
    const figure = text([at, y + 4.6], label(i), 6, { anchor: 'middle' });
    if (i === parts) return [figure];
    return [box([at, y], partMm, 1.6, { stroke: { widthMm: 0.18 }, fill: i % 2 === 0 ? 0 : 1 }), figure];
  });
}

/** Heading of a part of the column, with a rule under it. */
export function columnHeading(words: string, [x, y]: PointMm, widthMm: number): Mark[] {
  return [
    text([x, y], words, 7.5, { weight: 'bold' }),
    line(
      [
        [x + textWidthMm(words, 7.5, 'bold') + 2, y - 0.9],
        [x + widthMm, y - 0.9],
      ],
      { widthMm: 0.13 },
    ),
  ];
}
