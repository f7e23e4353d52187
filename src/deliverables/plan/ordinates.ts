import { line, type Mark, type PointMm, text } from '../paper/marks.ts';
import { spreadApart } from './spread.ts';

/** One figure on an edge of the drawing: how far a thing stands from the edge's zero. */
export interface Ordinate {
  readonly mark: string;
  /** Place along the edge, mm on paper, and the thing that it belongs to. */
  readonly atMm: number;
  readonly thingMm: PointMm;
  readonly words: string;
}

const FIGURE_PT = 6.2;
const GAP_MM = 3.1;
const LEADER_MM = 3.5;
const EXTENSION = { widthMm: 0.07, dashMm: [0.3, 1.1], grey: 0.3 };
const AXIS = { widthMm: 0.13 };

/** Running dimensions along the bottom: figures stand upright, read from the right. */
export function drawBottomOrdinates(ordinates: readonly Ordinate[], yMm: number, fromMm: number, toMm: number): Mark[] {
  const spread = spreadApart(
    ordinates.map(({ atMm }) => atMm),
    GAP_MM,
    fromMm + 2,
    toMm - 2,
  );
  return [
    line(
      [
        [fromMm, yMm],
        [toMm, yMm],
      ],
      AXIS,
    ),
    ...ordinates.flatMap(({ atMm, thingMm, mark, words }, i): Mark[] => [
      line([thingMm, [atMm, yMm]], EXTENSION),
      line(
        [
          [atMm, yMm - 0.8],
          [atMm, yMm + 0.8],
          [spread[i], yMm + LEADER_MM],
        ],
        AXIS,
      ),
      text([spread[i] + 0.75, yMm + LEADER_MM + 0.8], figure(mark, words), FIGURE_PT, { turnDeg: 90, anchor: 'end' }),
    ]),
  ];
}

/** Running dimensions up the left edge. */
export function drawLeftOrdinates(ordinates: readonly Ordinate[], xMm: number, fromMm: number, toMm: number): Mark[] {
  const spread = spreadApart(
    ordinates.map(({ atMm }) => atMm),
    GAP_MM,
    fromMm + 2,
    toMm - 2,
  );
  return [
    line(
      [
        [xMm, fromMm],
        [xMm, toMm],
      ],
      AXIS,
    ),
    ...ordinates.flatMap(({ atMm, thingMm, mark, words }, i): Mark[] => [
      line([thingMm, [xMm, atMm]], EXTENSION),
      line(
        [
          [xMm + 0.8, atMm],
          [xMm - 0.8, atMm],
          [xMm - LEADER_MM, spread[i]],
        ],
        AXIS,
      ),
      text([xMm - LEADER_MM - 0.8, spread[i] + 0.75], figure(mark, words), FIGURE_PT, { anchor: 'end' }),
    ]),
  ];
}

const figure = (mark: string, words: string): string => (mark === '' ? words : `${mark}  ${words}`);
