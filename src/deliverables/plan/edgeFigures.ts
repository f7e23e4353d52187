import type { Vec3 } from '../../core/vec3.ts';
import type { DrawingSide } from '../../scene/outline.ts';
import { type Mark, type PointMm, text } from '../paper/marks.ts';
import type { Box } from './boxes.ts';
import type { PaperView } from './drawingScale.ts';
import { type LengthUnits, signedLengthWords } from './lengthWords.ts';
import { drawBottomOrdinates, drawLeftOrdinates, type Ordinate } from './ordinates.ts';
import { projectToSheet } from './projectToSheet.ts';
import type { StandPlace } from './standPlaces.ts';
import type { StatedLength } from './statedLength.ts';

type Measure = 'right' | 'front' | 'height';

/** What the two edges of each drawing count: [along the bottom, up the left]. */
const EDGES: Readonly<Record<DrawingSide, readonly [Measure, Measure]>> = {
  plan: ['right', 'front'],
  front: ['right', 'height'],
  side: ['front', 'height'],
};

const CAPTIONS: Readonly<Record<Measure, readonly [low: string, high: string]>> = {
  right: ['\u2212 left', 'right +'],
  front: ['\u2212 back', 'front +'],
  height: ['', '+ up'],
};

export interface EdgeInput {
  readonly side: DrawingSide;
  readonly places: readonly StandPlace[];
  readonly subjectM: Vec3;
  readonly floorYM: number | null;
  readonly lengths: LengthUnits;
  readonly view: PaperView;
  /** The drawing itself on paper; the figures stand outside it. */
  readonly extent: Box;
}

const OUTSIDE_MM = 2;
const CAPTION_PT = 5.4;

/** Running dimensions of everything that stands on the set, from the subject or from the table top. */
export function drawEdgeFigures(input: EdgeInput): {
  readonly marks: readonly Mark[];
  readonly stated: StatedLength[];
} {
  const { side, extent } = input;
  const [bottom, left] = EDGES[side];
  const stated: StatedLength[] = [];
  const marks: Mark[] = [
    ...drawBottomOrdinates(ordinatesOf(input, bottom, 0, stated), extent.y1 + OUTSIDE_MM, extent.x0, extent.x1),
    ...drawLeftOrdinates(ordinatesOf(input, left, 1, stated), extent.x0 - OUTSIDE_MM, extent.y0, extent.y1),
    ...captions(input),
  ];
  return { marks, stated };
}

const lengthOf = (place: StandPlace, measures: Measure): number => {
  switch (measures) {
    case 'right':
      return place.rightM;
    case 'front':
      return place.frontM;
    case 'height':
      return place.heightM;
  }
};

function ordinatesOf(input: EdgeInput, measures: Measure, axis: 0 | 1, stated: StatedLength[]): Ordinate[] {
  const { side, places, view, lengths } = input;
  const ordinates = places.map((place): Ordinate => {
    const thingMm = view.toPaper(projectToSheet(side, place.positionM));
    const lengthM = lengthOf(place, measures);
    const words = signedLengthWords(lengthM, lengths);
    stated.push({ recordId: place.recordId, measures, lengthM, words });
    return { mark: place.mark, atMm: thingMm[axis], thingMm, words };
  });
  return [...ordinates, ...zeros(input, measures, axis)];
}

function zeros(
  { side, subjectM, floorYM, lengths, view, extent }: EdgeInput,
  measures: Measure,
  axis: 0 | 1,
): Ordinate[] {
  const at = (thingMm: PointMm, words: string): Ordinate => ({ mark: '', atMm: thingMm[axis], thingMm, words });
  if (measures !== 'height') return [at(view.toPaper(projectToSheet(side, subjectM)), 'subject 0')];
  const level = (yM: number): PointMm => [extent.x0, view.toPaper([0, -yM])[1]];
  return [
    at(level(0), 'table 0'),
    ...(floorYM === null ? [] : [at(level(floorYM), `floor ${signedLengthWords(floorYM, lengths)}`)]),
  ];
}

function captions({ side, extent }: EdgeInput): Mark[] {
  const [bottom, left] = EDGES[side];
  // On the side elevation the camera, and so the front, stands at the left.
  const [atLeft, atRight] = side === 'side' ? [...CAPTIONS.front].reverse() : CAPTIONS[bottom];
  const [low, high] = CAPTIONS[left];
  const [atTop, atFoot] = side === 'plan' ? [low, high] : [high, low];
  const look = { grey: 0.25 };
  return [
    text([extent.x0, extent.y1 + OUTSIDE_MM - 0.6], atLeft, CAPTION_PT, look),
    text([extent.x1, extent.y1 + OUTSIDE_MM - 0.6], atRight, CAPTION_PT, { ...look, anchor: 'end' }),
    text([extent.x0 - OUTSIDE_MM + 0.6, extent.y0 + 1], atTop, CAPTION_PT, look),
    text([extent.x0 - OUTSIDE_MM + 0.6, extent.y1 - 1.6], atFoot, CAPTION_PT, look),
  ];
}
