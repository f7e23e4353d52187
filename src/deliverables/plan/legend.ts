import { box, line, type Mark, outline, type PointMm, text } from '../paper/marks.ts';
import { strokeOf } from './drawingScale.ts';
import { FAMILY_LOOK } from './familyMarks.ts';
import { type Area, columnHeading } from './sheetFrame.ts';

const ROW_MM = 4.2;
const SIGN_MM = 12;
const WORDS_PT = 6.2;
const HEADING_MM = 4.6;
const PAD_MM = 2.5;

interface Sign {
  readonly words: string;
  /** Drawn in a box SIGN_MM wide whose middle line is at y. */
  draw(corner: PointMm): Mark[];
}

const level = (x: number, y: number, weight: Parameters<typeof strokeOf>[0], dash?: 'dashed' | 'chain'): Mark =>
  line(
    [
      [x, y],
      [x + SIGN_MM, y],
    ],
    strokeOf(weight, dash),
  );
const frameAt = (x: number, y: number, dashed: boolean): Mark =>
  box([x + 1, y - 1.2], SIGN_MM - 2, 2.4, { stroke: strokeOf('heavy', dashed ? 'dashed' : undefined) });

const SIGNS: readonly Sign[] = [
  {
    words: 'light, its face thick',
    draw: ([x, y]) => [
      box([x + 1, y - 1.3], SIGN_MM - 2, 2.2, { stroke: strokeOf('heavy') }),
      line(
        [
          [x + 1, y + 1.1],
          [x + SIGN_MM - 1, y + 1.1],
        ],
        strokeOf('face'),
      ),
    ],
  },
  { words: 'axis of a light', draw: ([x, y]) => [level(x, y, 'hair', 'chain')] },
  {
    words: 'flag',
    draw: ([x, y]) => [
      frameAt(x, y, false),
      line(
        [
          [x + 1, y - 1.2],
          [x + SIGN_MM - 1, y + 1.2],
        ],
        strokeOf('hair'),
      ),
      line(
        [
          [x + 1, y + 1.2],
          [x + SIGN_MM - 1, y - 1.2],
        ],
        strokeOf('hair'),
      ),
    ],
  },
  { words: 'card', draw: ([x, y]) => [frameAt(x, y, false)] },
  { words: 'diffusion cloth', draw: ([x, y]) => [frameAt(x, y, true)] },
  { words: 'edge of the view', draw: ([x, y]) => [level(x, y, 'hair', 'dashed')] },
  { words: 'plane of focus', draw: ([x, y]) => [level(x, y, 'thin')] },
  {
    words: 'level tape',
    draw: ([x, y]) => [
      level(x, y, 'hair'),
      line(
        [
          [x + SIGN_MM - 1, y - 1],
          [x + SIGN_MM + 1, y + 1],
        ],
        strokeOf('medium'),
      ),
    ],
  },
];

const FAMILY_SIGN: Sign = {
  words: 'mirrored to the lens: a light in it on all three sheets shows',
  draw: ([x, y]) => [
    outline(
      [
        [x + 1, y - 1.3],
        [x + SIGN_MM - 1, y - 1.3],
        [x + SIGN_MM - 1, y + 1.3],
        [x + 1, y + 1.3],
      ],
      FAMILY_LOOK.stroke,
      FAMILY_LOOK.fill,
    ),
  ],
};

/** Height that the legend takes at the foot of a column, mm. */
export const legendHeightMm = (withFamily: boolean): number =>
  HEADING_MM + Math.ceil(SIGNS.length / 2) * ROW_MM + (withFamily ? ROW_MM : 0) + 1.5;

/** What the lines of the drawing stand for, at the foot of the column. */
export function drawLegend(column: Area, withFamily: boolean): Mark[] {
  const x = column.xMm + PAD_MM;
  const widthMm = column.widthMm - 2 * PAD_MM;
  const top = column.yMm + column.heightMm - legendHeightMm(withFamily);
  const rows = Math.ceil(SIGNS.length / 2);
  const cell = (sign: Sign, corner: PointMm): Mark[] => [
    ...sign.draw(corner),
    text([corner[0] + SIGN_MM + 2, corner[1] + 0.8], sign.words, WORDS_PT, { grey: 0.15 }),
  ];
  return [
    ...columnHeading('Signs', [x, top + 2.4], widthMm),
    ...SIGNS.flatMap((sign, i) =>
      cell(sign, [x + (i < rows ? 0 : widthMm / 2), top + HEADING_MM + ((i % rows) + 0.5) * ROW_MM]),
    ),
    ...(withFamily ? cell(FAMILY_SIGN, [x, top + HEADING_MM + (rows + 0.5) * ROW_MM]) : []),
  ];
}
