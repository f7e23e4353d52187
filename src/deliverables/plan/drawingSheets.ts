import type { DrawingSide } from '../../scene/outline.ts';
import type { FrameSet } from '../frameSet.ts';
import type { Sheet } from '../paper/marks.ts';
import type { PaperSize } from '../paper/paperSize.ts';
import type { Box } from './boxes.ts';
import { chooseScale, type PaperView, paperView, type RoomMm } from './drawingScale.ts';
import { boundsOf } from './drawnItem.ts';
import { drawSet } from './drawSet.ts';
import { drawSide } from './drawSide.ts';
import { familiesOf } from './familyMarks.ts';
import { drawKeyList } from './keyList.ts';
import { drawLegend, legendHeightMm } from './legend.ts';
import { type LengthUnits, lengthWords } from './lengthWords.ts';
import { projectToSheet } from './projectToSheet.ts';
import { type Area, drawScaleBar, drawSheetFrame } from './sheetFrame.ts';
import { type PlaceOptions, standPlaces } from './standPlaces.ts';
import type { StatedLength } from './statedLength.ts';

export interface DrawingOptions extends PlaceOptions {
  readonly paper: PaperSize;
  /** As it is to be printed, for example '2026-04-18'. */
  readonly date: string;
}

export interface DrawingSheet {
  readonly side: DrawingSide;
  /** 20 for 1:20. */
  readonly denominator: number;
  readonly sheet: Sheet;
  readonly stated: readonly StatedLength[];
  readonly view: PaperView;
}

const SHEET_NAMES: Readonly<Record<DrawingSide, string>> = {
  plan: 'Lighting plan',
  front: 'Front elevation, from the camera side',
  side: 'Side elevation, from camera right',
};
const SIDES: readonly DrawingSide[] = ['plan', 'front', 'side'];
/** Left for the running dimensions and the scale bar, and free paper on the other sides. */
const INSET_MM = { left: 22, bottom: 29, right: 6, top: 8 };
/** Feet and inches are longer words. */
const INSET_FEET_MM = { ...INSET_MM, left: 27, bottom: 36 };
const SCALE_BAR_MOST_MM = 70;

/** Plan, front and side elevation of one frame on paper that lies on its side, all three to one scale. */
export function drawingSheets(frameSet: FrameSet, options: DrawingOptions): DrawingSheet[] {
  const { setup, frame, scene } = frameSet;
  const lengths = options.lengths ?? 'mm';
  const { places, floor } = standPlaces(frameSet, options);
  const families = familiesOf(frameSet);
  const views = SIDES.map((side) => {
    const items = drawSet(frameSet, side);
    const subject = projectToSheet(side, scene.subject.meterPointM);
    const floorPoints = floor && side !== 'plan' ? [[subject[0], -floor.yM] as const] : [];
    return { side, items, bounds: boundsOf([...items.flatMap(({ hullM }) => hullM), subject, ...floorPoints]) };
  });
  const frameFor = (side: DrawingSide, denominator: number) =>
    drawSheetFrame(options.paper, {
      setup: setup.title,
      frame: frame.name,
      client: setup.brief.client,
      sheet: SHEET_NAMES[side],
      date: options.date,
      denominator,
      lengths,
    });
  const extent = extentIn(frameFor('plan', 1).window, lengths);
  const room: RoomMm = { widthMm: extent.x1 - extent.x0, heightMm: extent.y1 - extent.y0 };
  const denominator = chooseScale(
    views.map(({ bounds }) => bounds),
    room,
    lengths,
  );
  const notes = [
    floor
      ? `Floor ${lengthWords(-floor.yM, lengths)} under the table top (${floor.source}).`
      : 'Height of the table is not known.',
    '+ is camera right and toward the camera; 0 is plumb under the meter.',
  ];
  return views.map(({ side, items, bounds }): DrawingSheet => {
    const { widthMm, heightMm, window, column, marks } = frameFor(side, denominator);
    const view = paperView(bounds, denominator, [extent.x0, extent.y0], room);
    const drawing = drawSide(frameSet, {
      side,
      items,
      places,
      view,
      extent,
      floorYM: floor?.yM ?? null,
      lengths,
      families,
    });
    const legendMm = legendHeightMm(families.length > 0);
    const sheet: Sheet = {
      title: `${setup.title}: ${frame.name}, ${SHEET_NAMES[side].toLowerCase()}, 1:${denominator}`,
      widthMm,
      heightMm,
      marks: [
        ...drawing.marks,
        ...drawScaleBar(denominator, [extent.x0, window.yMm + window.heightMm - 8], SCALE_BAR_MOST_MM, lengths),
        ...marks,
        ...drawKeyList(places, notes, { ...column, heightMm: column.heightMm - legendMm }, lengths),
        ...drawLegend(column, families.length > 0),
      ],
    };
    return { side, denominator, sheet, stated: drawing.stated, view };
  });
}

const extentIn = ({ xMm, yMm, widthMm, heightMm }: Area, lengths: LengthUnits): Box => {
  const inset = lengths === 'feet' ? INSET_FEET_MM : INSET_MM;
  return {
    x0: xMm + inset.left,
    y0: yMm + inset.top,
    x1: xMm + widthMm - inset.right,
    y1: yMm + heightMm - inset.bottom,
  };
};
