import { columnHead, showCell, type Table } from './table.ts';

/** Texts that begin so are taken for formulas by spreadsheets; a leading apostrophe keeps them text. */
const FORMULA_START = /^[=+\-@\t\r]/;

/** One field of a CSV file (RFC 4180): in quotes where it holds a quote, a comma or a line break. */
export const csvField = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Records of fields as CSV text (RFC 4180): CRLF after every record, UTF-8 when written out. */
export const csvFromRecords = (records: readonly (readonly string[])[]): string =>
  records.map((fields) => `${fields.map(csvField).join(',')}\r\n`).join('');

/**
 * A table as CSV: one line of heads with units, then its rows. Numbers use the full stop. Text from the setup that a
 * spreadsheet would run as a formula gets an apostrophe in front.
 */
export function csvFromTable(table: Table): string {
  const columns = table.columns.filter(({ blank }) => !blank);
  const kept = table.columns.flatMap(({ blank }, i) => (blank ? [] : [i]));
  return csvFromRecords([
    columns.map(columnHead),
    ...table.rows.map((row) =>
      kept.map((i) => {
        const cell = row[i] ?? null;
        const shown = showCell(cell, table.columns[i]);
        return typeof cell === 'string' ? csvText(shown) : shown;
      }),
    ),
  ]);
}

/** Text that stays text in a spreadsheet. */
export const csvText = (text: string): string => (FORMULA_START.test(text) ? `'${text}` : text);
