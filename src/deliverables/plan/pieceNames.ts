import type { Mark } from '../paper/marks.ts';
import { textWidthMm } from '../paper/typeset.ts';
import { type Box, isInside } from './boxes.ts';
import { clearedText } from './clearedText.ts';
import type { TakenBoxes } from './takenBoxes.ts';

export interface NamedThing {
  readonly name: string;
  readonly thing: Box;
  /** Names of tables and backdrops stand inside along an edge, others beside. */
  readonly isGround: boolean;
}

const NAME_PT = 5.8;
const HEIGHT_MM = 2.4;

/** Names of set pieces where they cover the least; one that finds no clear place is left out. */
export function placePieceNames(things: readonly NamedThing[], window: Box, taken: TakenBoxes): Mark[] {
  return things.flatMap((named): Mark[] => {
    const widthMm = textWidthMm(named.name, NAME_PT);
    const place = places(named, widthMm).find((box) => isInside(box, window) && taken.isFree(box, 0.3));
    if (!place) return [];
    taken.add(place);
    return clearedText([(place.x0 + place.x1) / 2, (place.y0 + place.y1) / 2], named.name, NAME_PT, { grey: 0.2 });
  });
}

function places({ thing, isGround }: NamedThing, widthMm: number): Box[] {
  const at = (x: number, y: number): Box => ({ x0: x, x1: x + widthMm, y0: y, y1: y + HEIGHT_MM });
  const { x0, x1, y0, y1 } = thing;
  const mid = (x0 + x1 - widthMm) / 2;
  const beside = [
    at(x1 + 1.2, (y0 + y1 - HEIGHT_MM) / 2),
    at(x0 - 1.2 - widthMm, (y0 + y1 - HEIGHT_MM) / 2),
    at(mid, y1 + 0.8),
    at(mid, y0 - 0.8 - HEIGHT_MM),
    at(x1 + 1, y1 + 0.5),
    at(x0 - 1 - widthMm, y1 + 0.5),
    at(x1 + 1, y0 - 0.5 - HEIGHT_MM),
    at(x0 - 1 - widthMm, y0 - 0.5 - HEIGHT_MM),
    // Beside the ends of what stands slanted, then a little farther off.
    at(x1 + 1, y0),
    at(x1 + 1, y1 - HEIGHT_MM),
    at(x0 - 1 - widthMm, y0),
    at(x0 - 1 - widthMm, y1 - HEIGHT_MM),
    at(mid, y1 + 4),
    at(mid, y0 - 4 - HEIGHT_MM),
  ];
  if (!isGround) return beside;
  const fits = x1 - x0 > widthMm + 2.4 && y1 - y0 > HEIGHT_MM + 1.4;
  const inside = fits
    ? [y1 - HEIGHT_MM - 0.7, y0 + 0.7].flatMap((y) =>
        [0, 0.2, 0.4, 0.6, 0.8, 1].map((t) => at(x0 + 1.2 + t * (x1 - x0 - widthMm - 2.4), y)),
      )
    : [];
  const along = [at(x0, y1 + 0.8), at(x1 - widthMm, y1 + 0.8), at(x0, y0 - 0.8 - HEIGHT_MM), at(x1 - widthMm, y0 - 3)];
  return [...inside, ...along, ...beside];
}
