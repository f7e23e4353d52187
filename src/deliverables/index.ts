export { type ClientFrame, type ClientPageInput, type ClientPicture, clientPage } from './clientPage/clientPage.ts';
export { contactSheet, type FramePicture } from './contactSheet/contactSheet.ts';
export { writeGlb, writeGltf } from './exchange/gltfFiles.ts';
export { type GltfScene, gltfFromFrame } from './exchange/gltfFromFrame.ts';
export { fileStem, setupFile } from './exchange/setupFile.ts';
export { type FrameSet, openFrameSet } from './frameSet.ts';
export { type MatchInput, type MeterMatch, matchMeter } from './meterMatch/matchMeter.ts';
export type { MeterDisplay, OnSetReading } from './meterMatch/meterReading.ts';
export type { Sheet } from './paper/marks.ts';
export { PAPER_SIZES, type PaperName } from './paper/paperSize.ts';
export { svgFromSheet } from './paper/svgFromSheet.ts';
export {
  frameTables,
  type PaperFrame,
  type PaperOptions,
  paperFrame,
  paperSheets,
  papersPdf,
  setupTables,
} from './papers.ts';
export { pdfFromSheets } from './pdf/pdfFromSheets.ts';
export { type DrawingSheet, drawingSheets } from './plan/drawingSheets.ts';
export { csvFromTable } from './sheets/csv.ts';
export { findingsSheet } from './sheets/findingsSheet.ts';
export { type MeterPoint, meterPointsOf, type PredictedReading, predictReadings } from './sheets/predictedReadings.ts';
export type { Table } from './sheets/table.ts';
export { turnFigures } from './video/turnFigures.ts';
export { planTurn, type TurnPlan, type TurnPlanInput } from './video/turnPlan.ts';
