import { type Sheet, text } from '../paper/marks.ts';

const FOOT_PT = 6.4;
const EDGE_MM = 14;
const BASE_MM = 4.2;

/** Adds to the foot of every sheet what it belongs to, the day, and which of how many it is. */
export const numberSheets = (sheets: readonly Sheet[], belongsTo: string, date: string): Sheet[] =>
  sheets.map((sheet, i) => {
    const y = sheet.heightMm - BASE_MM;
    const look = { grey: 0.3 };
    return {
      ...sheet,
      marks: [
        ...sheet.marks,
        text([EDGE_MM, y], belongsTo, FOOT_PT, look),
        text([sheet.widthMm / 2, y], date, FOOT_PT, { ...look, anchor: 'middle' }),
        text([sheet.widthMm - EDGE_MM, y], `${i + 1} of ${sheets.length}`, FOOT_PT, { ...look, anchor: 'end' }),
      ],
    };
  });
