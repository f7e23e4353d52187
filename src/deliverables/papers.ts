import type { CheckInput } from '../analysis/contracts.ts';
import type { FrameSet } from './frameSet.ts';
import type { Sheet } from './paper/marks.ts';
import { PAPER_SIZES, type PaperName } from './paper/paperSize.ts';
import { numberSheets } from './pdf/numberSheets.ts';
import { pdfFromSheets } from './pdf/pdfFromSheets.ts';
import { tablePages } from './pdf/tablePages.ts';
import { type DrawingSheet, drawingSheets } from './plan/drawingSheets.ts';
import { buildOrder, type HeroTime } from './sheets/buildOrder.ts';
import { cautions } from './sheets/cautions.ts';
import { fixtureSchedule, gripSchedule } from './sheets/fixtureSchedule.ts';
import { kitList } from './sheets/kitList.ts';
import { lightByLightSheet, meterSheet } from './sheets/meterSheet.ts';
import { powerSheet } from './sheets/powerSheet.ts';
import { type PredictedReading, predictReadings } from './sheets/predictedReadings.ts';
import { shotList } from './sheets/shotList.ts';
import { supportSheet } from './sheets/supportSheet.ts';
import type { Table } from './sheets/table.ts';

export interface PaperFrame {
  readonly frameSet: FrameSet;
  readonly readings: readonly PredictedReading[];
}

/** A frame with what the meter should read in it. `input` is what the checks read of the same frame. */
export const paperFrame = (frameSet: FrameSet, input: CheckInput): PaperFrame => ({
  frameSet,
  readings: predictReadings(input),
});

export interface PaperOptions {
  /** As it is printed, for example '2026-04-18'. */
  readonly date: string;
  /** Table top over the floor, when it is known. */
  readonly tableHeightM?: number;
  readonly heroTime?: HeroTime;
}

/** Tables of one frame. */
export const frameTables = ({ frameSet, readings }: PaperFrame, options: PaperOptions): Table[] => [
  fixtureSchedule(frameSet, readings, options),
  ...(frameSet.scene.grip.length > 0 ? [gripSchedule(frameSet, options)] : []),
  meterSheet(frameSet, readings),
  ...(frameSet.scene.fixtures.some(({ on }) => on) ? [lightByLightSheet(frameSet, readings)] : []),
];

/** Tables of the whole setup. */
export function setupTables(frames: readonly PaperFrame[], options: PaperOptions): Table[] {
  const frameSets = frames.map(({ frameSet }) => frameSet);
  return [
    kitList(frameSets, options),
    supportSheet(frameSets, options),
    powerSheet(frameSets),
    buildOrder(
      frameSets,
      frames.map(({ readings }) => readings),
      options,
    ),
    shotList(frameSets, options),
    cautions(frameSets, options),
  ];
}

/** Every paper in the order that a crew leafs through: drawings and figures by frame, then the lists for all of them. */
export function paperSheets(frames: readonly PaperFrame[], paper: PaperName, options: PaperOptions): Sheet[] {
  const size = PAPER_SIZES[paper];
  const drawings = (frame: PaperFrame): DrawingSheet[] => drawingSheets(frame.frameSet, { ...options, paper: size });
  const sheets = [
    ...frames.flatMap((frame) => [
      ...drawings(frame).map(({ sheet }) => sheet),
      ...tablePages(frameTables(frame, options), size),
    ]),
    ...tablePages(setupTables(frames, options), size),
  ];
  return numberSheets(sheets, frames[0].frameSet.setup.title, options.date);
}

/** The papers as one PDF file. `madeOn` goes into the file's own properties. */
export const papersPdf = (
  frames: readonly PaperFrame[],
  paper: PaperName,
  options: PaperOptions & { readonly madeOn: Date },
): Promise<Uint8Array> =>
  pdfFromSheets(paperSheets(frames, paper, options), {
    title: frames[0].frameSet.setup.title,
    subject: `Lighting papers of ${options.date}`,
    madeOn: options.madeOn,
  });
