import type { FamilyOfAngles } from '../../analysis/family/familyOfAngles.ts';
import { convexHull, type DrawingSide } from '../../scene/outline.ts';
import type { FrameSet } from '../frameSet.ts';
import { line, type Mark, type PointMm } from '../paper/marks.ts';
import { textWidthMm } from '../paper/typeset.ts';
import { type Balloon, placeBalloons } from './balloons.ts';
import { type Box, growBox } from './boxes.ts';
import { clearedText } from './clearedText.ts';
import { type PaperView, strokeOf } from './drawingScale.ts';
import { boundsOf, type DrawnItem, type DrawnLine } from './drawnItem.ts';
import { drawEdgeFigures } from './edgeFigures.ts';
import { drawFamilies, nameFamilies } from './familyMarks.ts';
import { type LengthUnits, lengthWords } from './lengthWords.ts';
import { placePieceNames } from './pieceNames.ts';
import { projectToSheet } from './projectToSheet.ts';
import type { StandPlace } from './standPlaces.ts';
import type { StatedLength } from './statedLength.ts';
import { createTakenBoxes, type TakenBoxes } from './takenBoxes.ts';
import { drawTapeDimension, lineBoxes } from './tapeDimension.ts';

export interface SideInput {
  readonly side: DrawingSide;
  readonly items: readonly DrawnItem[];
  readonly places: readonly StandPlace[];
  readonly view: PaperView;
  /** Room of the drawing itself on paper. */
  readonly extent: Box;
  readonly floorYM: number | null;
  readonly lengths: LengthUnits;
  readonly families: readonly FamilyOfAngles[];
}

/** The drawing on one sheet: outlines, dimensions, marks and names, each set where it covers least of the rest. */
export function drawSide(frameSet: FrameSet, input: SideInput): { marks: Mark[]; stated: StatedLength[] } {
  const { side, items, places, view, extent, floorYM, lengths, families } = input;
  const subjectM = frameSet.scene.subject.meterPointM;
  const subjectMm = view.toPaper(projectToSheet(side, subjectM));
  const edge = drawEdgeFigures({ side, places, subjectM, floorYM, lengths, view, extent });
  const taken = createTakenBoxes();
  taken.add(around(subjectMm, 2));
  const lines: Mark[] = items.flatMap((item) =>
    item.lines
      .filter((drawn) => !(side === 'plan' && liesOnTape(drawn, view, subjectMm)))
      .map((drawn) => markOfLine(drawn, view)),
  );
  const tapes = side === 'plan' ? layTapes(input, subjectMm, taken) : { marks: [], stated: [] };
  for (const item of items) taken.add(...strokeBoxes(item, view));
  const focus = side === 'plan' ? focusLabel(frameSet, items, input, taken) : [];
  const balloons = placeBalloons(
    places.map((place): Balloon => {
      const item = items.find(({ recordId }) => recordId === place.recordId);
      const hullMm = item?.hullM.map(view.toPaper) ?? [view.toPaper(projectToSheet(side, place.positionM))];
      return { mark: place.mark, kind: place.kind, hullMm };
    }),
    extent,
    taken,
  );
  const names = placePieceNames(
    items
      .filter(({ kind }) => kind === 'piece' || kind === 'turntable')
      .map(({ name, hullM, isGround }) => ({ name, isGround, thing: paperBox(hullM.map(view.toPaper)) }))
      .sort((a, b) => Number(a.isGround) - Number(b.isGround)),
    extent,
    taken,
  );
  const familyNames = nameFamilies(families, frameSet, { side, view, extent, taken });
  return {
    marks: [
      ...drawFamilies(families, side, view, extent),
      ...(side === 'plan' ? [] : levelLines(view, extent, floorYM)),
      ...edge.marks,
      ...lines,
      ...tapes.marks,
      ...(side === 'plan' ? subjectMark(subjectMm) : []),
      ...focus,
      ...names,
      ...familyNames,
      ...balloons,
    ],
    stated: [...tapes.stated, ...edge.stated],
  };
}

const markOfLine = ({ pointsM, closed, weight, dash }: DrawnLine, view: PaperView): Mark => ({
  type: 'line',
  pointsMm: pointsM.map(view.toPaper),
  closed,
  stroke: strokeOf(weight, dash),
});

/** An axis that runs to the subject lies under its own tape and is left out there. */
function liesOnTape({ dash, pointsM }: DrawnLine, view: PaperView, subjectMm: PointMm): boolean {
  if (dash !== 'chain') return false;
  const [a, b] = pointsM.map(view.toPaper);
  const reach = Math.hypot(subjectMm[0] - a[0], subjectMm[1] - a[1]);
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (reach < 1e-6 || length < 1e-6) return true;
  const offMm =
    Math.abs((b[0] - a[0]) * (subjectMm[1] - a[1]) - (b[1] - a[1]) * (subjectMm[0] - a[0])) / Math.max(length, reach);
  return offMm < 1.5 && (b[0] - a[0]) * (subjectMm[0] - a[0]) + (b[1] - a[1]) * (subjectMm[1] - a[1]) > 0;
}

/** A tape from the subject to every light and to the camera; sheets of grip have their edge figures. */
function layTapes({ side, places, view, lengths }: SideInput, subjectMm: PointMm, taken: TakenBoxes) {
  const marks: Mark[] = [];
  const stated: StatedLength[] = [];
  for (const place of places.filter(({ kind }) => kind !== 'grip')) {
    const words = lengthWords(place.horizontalM, lengths);
    const at = view.toPaper(projectToSheet(side, place.positionM));
    const dimension = drawTapeDimension(subjectMm, at, words, (box) => taken.isFree(box, 0));
    if (dimension.marks.length === 0) continue;
    marks.push(...dimension.marks);
    taken.add(...dimension.taken);
    stated.push({ recordId: place.recordId, measures: 'level distance', lengthM: place.horizontalM, words });
  }
  return { marks, stated };
}

/** Axes and sight lines may be crossed by marks, outlines not. */
const strokeBoxes = ({ lines }: DrawnItem, view: PaperView): Box[] =>
  lines
    .filter(({ weight }) => weight !== 'hair')
    .flatMap(({ pointsM, closed }) => {
      const points = pointsM.map(view.toPaper);
      const ends = closed ? [...points, points[0]] : points;
      return ends.slice(1).flatMap((p, i) => lineBoxes(ends[i], p));
    });

/** Beside the end of the tick across the field of view. */
function focusLabel({ scene }: FrameSet, items: readonly DrawnItem[], { view, lengths }: SideInput, taken: TakenBoxes) {
  const tick = items.find(({ kind }) => kind === 'camera')?.lines[1]?.pointsM.map(view.toPaper);
  if (!tick) return [];
  const words = `focus ${lengthWords(scene.camera.focusDistanceM, lengths)}`;
  const halfMm = textWidthMm(words, FOCUS_PT) / 2 + 1;
  const [left, right] = [...tick].sort((a, b) => a[0] - b[0]);
  const spots = [0, 6, 12, 18].flatMap((awayMm): PointMm[] => [
    [right[0] + halfMm + awayMm, right[1]],
    [left[0] - halfMm - awayMm, left[1]],
  ]);
  const boxAt = ([x, y]: PointMm): Box => ({ x0: x - halfMm, x1: x + halfMm, y0: y - 1.1, y1: y + 1.1 });
  const spot = spots.find((p) => taken.isFree(boxAt(p), 0)) ?? spots[0];
  taken.add(growBox(boxAt(spot), 0.2));
  return clearedText(spot, words, FOCUS_PT);
}
const FOCUS_PT = 5.8;

/** Where the tapes start: plumb under the meter. */
function subjectMark([x, y]: PointMm): Mark[] {
  const stroke = { widthMm: 0.18 };
  const r = 1.1;
  return [
    { type: 'circle', centreMm: [x, y], radiusMm: r, stroke, fill: 1 },
    line(
      [
        [x - r - 0.8, y],
        [x + r + 0.8, y],
      ],
      stroke,
    ),
    line(
      [
        [x, y - r - 0.8],
        [x, y + r + 0.8],
      ],
      stroke,
    ),
  ];
}

/** The level of the table top, and the floor with short strokes under it. */
function levelLines(view: PaperView, extent: Box, floorYM: number | null): Mark[] {
  const level = (yM: number): number => view.toPaper([0, -yM])[1];
  const table = level(0);
  const marks: Mark[] = [
    line(
      [
        [extent.x0, table],
        [extent.x1, table],
      ],
      { widthMm: 0.1, dashMm: [5, 1, 0.6, 1], grey: 0.3 },
    ),
  ];
  if (floorYM === null) return marks;
  const y = level(floorYM);
  marks.push(
    line(
      [
        [extent.x0, y],
        [extent.x1, y],
      ],
      { widthMm: 0.35 },
    ),
  );
  for (let x = extent.x0 + 2; x < extent.x1; x += 4)
    marks.push(
      line(
        [
          [x, y],
          [x - 1.6, y + 1.6],
        ],
        { widthMm: 0.1 },
      ),
    );
  return marks;
}

const around = ([x, y]: PointMm, byMm: number): Box => ({ x0: x - byMm, x1: x + byMm, y0: y - byMm, y1: y + byMm });

function paperBox(points: readonly PointMm[]): Box {
  const { min, max } = boundsOf(convexHull(points));
  return { x0: min[0], y0: min[1], x1: max[0], y1: max[1] };
}
