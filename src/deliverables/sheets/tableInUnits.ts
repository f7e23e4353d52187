import { type LengthUnits, lengthWords } from '../plan/lengthWords.ts';
import type { Cell, Table } from './table.ts';

/** Feet and inches with a fraction take more room than millimetres, and stay on one line. */
const WIDER = 1.4;

/**
 * A table as papers in these units show it: lengths of the set in feet and inches, all else as it is. Lengths that no row has
 * are left out, for the room.
 */
export function tableInUnits(table: Table, units: LengthUnits): Table {
  if (units === 'mm' || !table.columns.some(({ isLength }) => isLength)) return table;
  const kept = table.columns.flatMap(({ isLength }, i) =>
    isLength && table.rows.length > 0 && table.rows.every((row) => row[i] === null) ? [] : [i],
  );
  return {
    ...table,
    columns: kept.map((i) => {
      const column = table.columns[i];
      if (!column.isLength) return column;
      const { unit: _, isLength: __, ...rest } = column;
      return { ...rest, unit: 'ft\u00a0in', share: WIDER * rest.share };
    }),
    rows: table.rows.map((row) =>
      kept.map((i): Cell => {
        const cell = row[i] ?? null;
        return table.columns[i].isLength && typeof cell === 'number' ? lengthWords(cell / 1000, units) : cell;
      }),
    ),
  };
}
