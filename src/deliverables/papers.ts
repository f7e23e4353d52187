import type { CheckInput } from '../analysis/contracts.ts';
import type { FrameSet } from './frameSet.ts';
import type { Sheet } from './paper/marks.ts';
import { PAPER_SIZES, type PaperName } from './paper/paperSize.ts';
import { numberSheets } from './pdf/numberSheets.ts';
import { pdfFromSheets } from './pdf/pdfFromSheets.ts';
import { tablePages } from './pdf/tablePages.ts';
import { type DrawingSheet, drawingSheets } from './plan/drawingSheets.ts';
import type { LengthUnits } from './plan/lengthWords.ts';
import { buildOrder } from './sheets/buildOrder.ts';
import { cautions } from './sheets/cautions.ts';
import { circuitSheet } from './sheets/circuitSheet.ts';
import { fixtureSchedule, gripSchedule } from './sheets/fixtureSchedule.ts';
import { type HeroTime, heroClock, heroTimeOf } from './sheets/heroClock.ts';
import { kitList } from './sheets/kitList.ts';
import { lightByLightSheet, meterSheet } from './sheets/meterSheet.ts';
import { powerSheet } from './sheets/powerSheet.ts';
import { type PredictedReading, predictReadings } from './sheets/predictedReadings.ts';
import { shotList } from './sheets/shotList.ts';
import { supportSheet } from './sheets/supportSheet.ts';
import type { Table } from './sheets/table.ts';
import { tableInUnits } from './sheets/tableInUnits.ts';

export interface PaperFrame {
  readonly frameSet: FrameSet;
  readonly readings: readonly PredictedReading[];
  /** How long the hero holds in this frame; null where its drink has no ice. */
  readonly heroTime: HeroTime | null;
}

/** A frame with what the meter should read in it. `input` is what the checks read of the same frame. */
export const paperFrame = (frameSet: FrameSet, input: CheckInput): PaperFrame => ({
  frameSet,
  readings: predictReadings(input),
  heroTime: heroTimeOf(input),
});

export interface PaperOptions {
  /** As it is printed, for example '2026-04-18'. */
  readonly date: string;
  /** Table top over the floor, when it is known. */
  readonly tableHeightM?: number;
  /** What lengths are said in; where left out, feet and inches on Letter and millimetres on A4 and in CSV. */
  readonly lengths?: LengthUnits;
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
  const clock = heroClock(
    frameSets,
    frames.map(({ heroTime }) => heroTime),
  );
  return [
    kitList(frameSets, options),
    supportSheet(frameSets, options),
    powerSheet(frameSets),
    circuitSheet(frameSets, options),
    buildOrder(
      frameSets,
      frames.map(({ readings }) => readings),
      { ...options, heroTime: frames[0].heroTime },
    ),
    shotList(frameSets, options),
    ...(clock ? [clock] : []),
    cautions(frameSets, options),
  ];
}

/** Units of a paper's lengths: Letter is the paper of places that build in feet and inches. */
export const lengthsOn = (paper: PaperName, { lengths }: Pick<PaperOptions, 'lengths'>): LengthUnits =>
  lengths ?? (paper === 'letter' ? 'feet' : 'mm');

/** Every paper in the order that a crew leafs through: drawings and figures by frame, then the lists for all of them. */
export function paperSheets(frames: readonly PaperFrame[], paper: PaperName, given: PaperOptions): Sheet[] {
  const size = PAPER_SIZES[paper];
  const lengths = lengthsOn(paper, given);
  const options = { ...given, lengths };
  const inUnits = (tables: readonly Table[]): Table[] => tables.map((table) => tableInUnits(table, lengths));
  const drawings = (frame: PaperFrame): DrawingSheet[] => drawingSheets(frame.frameSet, { ...options, paper: size });
  const sheets = [
    ...frames.flatMap((frame) => [
      ...drawings(frame).map(({ sheet }) => sheet),
      ...tablePages(inUnits(frameTables(frame, options)), size),
    ]),
    ...tablePages(inUnits(setupTables(frames, options)), size),
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
