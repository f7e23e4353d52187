import { box, line, type Mark, type PointMm, type Sheet, text } from '../paper/marks.ts';
import { MM_PER_PT, type PaperSize } from '../paper/paperSize.ts';
import { fitText, wrapText } from '../paper/typeset.ts';
import { type Column, columnHead, showCell, type Table } from '../sheets/table.ts';

const MARGIN_MM = { left: 14, right: 12, top: 15, bottom: 15 };
const TITLE_PT = 13;
const LEAD_PT = 8;
const HEAD_PT = 6.6;
const BODY_PT = 7.6;
const NOTE_PT = 7;
const LEADING = 1.22;
const CELL_PAD_MM = 2.6;
const ROW_PAD_MM = 1.15;
/** Between two tables that share a page. */
const TABLE_GAP_MM = 9;
/** More columns than this need the sheet on its side. */
const MOST_UPRIGHT_COLUMNS = 8;

const lineMm = (sizePt: number): number => sizePt * MM_PER_PT * LEADING;

interface Row {
  readonly cells: readonly (readonly string[])[];
  readonly heightMm: number;
  readonly startsGroup: boolean;
}

interface LaidTable {
  readonly table: Table;
  readonly widths: readonly number[];
  readonly head: readonly (readonly string[])[];
  readonly headMm: number;
  readonly rows: readonly Row[];
  readonly notes: readonly string[];
  readonly notesMm: number;
}

/**
 * Tables on pages: the next one goes on the same page where all of it fits there. A table that runs on repeats its head.
 */
export function tablePages(tables: readonly Table[], paper: PaperSize): Sheet[] {
  const sheets: Sheet[] = [];
  let page: PageInWork | null = null;
  for (const table of tables) {
    const size = pageSize(table, paper);
    const laid = layTable(table, size.widthMm - MARGIN_MM.left - MARGIN_MM.right);
    const whole = titleMm(table) + laid.headMm + sum(laid.rows.map(({ heightMm }) => heightMm)) + laid.notesMm;
    const fits: boolean =
      page !== null && page.size.widthMm === size.widthMm && page.yMm + TABLE_GAP_MM + whole <= page.bottomMm;
    if (page && fits) page.yMm += TABLE_GAP_MM;
    else {
      if (page) sheets.push(closePage(page));
      page = openPage(size, table.title);
    }
    page = setTable(laid, page, sheets);
  }
  if (page) sheets.push(closePage(page));
  return sheets;
}

interface PageSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

interface PageInWork {
  readonly size: PageSize;
  readonly title: string;
  readonly marks: Mark[];
  readonly bottomMm: number;
  yMm: number;
}

const pageSize = (table: Table, paper: PaperSize): PageSize =>
  table.columns.length > MOST_UPRIGHT_COLUMNS
    ? { widthMm: paper.heightMm, heightMm: paper.widthMm }
    : { widthMm: paper.widthMm, heightMm: paper.heightMm };

const openPage = (size: PageSize, title: string): PageInWork => ({
  size,
  title,
  marks: [],
  bottomMm: size.heightMm - MARGIN_MM.bottom,
  yMm: MARGIN_MM.top,
});

const closePage = ({ size, title, marks }: PageInWork): Sheet => ({ title, ...size, marks });

const titleMm = (table: Table): number => lineMm(TITLE_PT) + (table.lead ? lineMm(LEAD_PT) : 0) + 2.5;

function layTable(table: Table, widthMm: number): LaidTable {
  const shares = sum(table.columns.map(({ share }) => share));
  const widths = table.columns.map(({ share }) => (widthMm * share) / shares);
  const wrapIn = (words: string, i: number, sizePt: number, weight: 'regular' | 'bold' = 'regular'): string[] =>
    wrapText(words, sizePt, widths[i] - CELL_PAD_MM, weight);
  const head = table.columns.map((column, i) => wrapIn(columnHead(column), i, HEAD_PT, 'bold'));
  const grouped = table.groupedColumns ?? 0;
  const rows = table.rows.map((cells, r): Row => {
    const before = table.rows[r - 1];
    const repeats = (i: number): boolean =>
      i < grouped && before !== undefined && cells.slice(0, i + 1).every((cell, k) => cell === before[k]);
    const words = table.columns.map((column, i) =>
      repeats(i) ? [''] : wrapIn(showCell(cells[i] ?? null, column), i, BODY_PT),
    );
    const lines = Math.max(1, ...words.map(({ length }) => length));
    const hasBlank = table.columns.some(({ blank }) => blank);
    const heightMm = lines * lineMm(BODY_PT) + 2 * ROW_PAD_MM + (hasBlank && lines === 1 ? 1.2 : 0);
    return { cells: words, heightMm, startsGroup: grouped > 0 && !repeats(0) };
  });
  const notes = table.notes.flatMap((note) => wrapText(note, NOTE_PT, widthMm));
  return {
    table,
    widths,
    head,
    headMm: Math.max(...head.map(({ length }) => length)) * lineMm(HEAD_PT) + 2 * ROW_PAD_MM,
    rows,
    notes,
    notesMm: notes.length === 0 ? 0 : notes.length * lineMm(NOTE_PT) + 3,
  };
}

function setTable(laid: LaidTable, first: PageInWork, done: Sheet[]): PageInWork {
  let page = first;
  const { table } = laid;
  setTitle(page, table, false);
  setHead(page, laid);
  laid.rows.forEach((row, i) => {
    // The notes stay with the last row, and the first row of a group with its second.
    const next = laid.rows[i + 1];
    const follows = row.startsGroup && next && !next.startsGroup ? next.heightMm : 0;
    const needs = row.heightMm + follows + (next ? 0 : laid.notesMm);
    if (page.yMm + needs > page.bottomMm && page.yMm > MARGIN_MM.top + 20) {
      done.push(closePage(page));
      page = openPage(page.size, table.title);
      setTitle(page, table, true);
      setHead(page, laid);
    }
    setRow(page, laid, row);
  });
  page.marks.push(rule(page, 0.35));
  setNotes(page, laid);
  return page;
}

function setTitle(page: PageInWork, table: Table, goesOn: boolean): void {
  const { left } = MARGIN_MM;
  const widthMm = page.size.widthMm - left - MARGIN_MM.right;
  page.yMm += lineMm(TITLE_PT) * 0.8;
  const title = goesOn ? `${table.title}, continued` : table.title;
  page.marks.push(text([left, page.yMm], fitText(title, TITLE_PT, widthMm, 'bold'), TITLE_PT, { weight: 'bold' }));
  page.yMm += lineMm(TITLE_PT) * 0.2;
  if (table.lead) {
    page.yMm += lineMm(LEAD_PT);
    page.marks.push(text([left, page.yMm], fitText(table.lead, LEAD_PT, widthMm), LEAD_PT, { grey: 0.25 }));
  }
  page.yMm += 2.5;
}

function setHead(page: PageInWork, laid: LaidTable): void {
  page.marks.push(rule(page, 0.5));
  const foot = page.yMm + laid.headMm - ROW_PAD_MM;
  laid.head.forEach((lines, i) => {
    // Heads stand on their rule.
    const top = foot - lines.length * lineMm(HEAD_PT);
    page.marks.push(...setLines(lines, columnEdge(laid, i), top, HEAD_PT, 'bold'));
  });
  page.yMm += laid.headMm;
  page.marks.push(rule(page, 0.25));
}

function setRow(page: PageInWork, laid: LaidTable, row: Row): void {
  const isFirst = row === laid.rows[0];
  if (!isFirst) page.marks.push(row.startsGroup ? rule(page, 0.18) : rule(page, 0.07));
  const lines = Math.max(...row.cells.map(({ length }) => length));
  const spareMm = row.heightMm - lines * lineMm(BODY_PT);
  const top = page.yMm + spareMm / 2;
  row.cells.forEach((lines, i) => {
    const column = laid.table.columns[i];
    if (column.blank) {
      const { x, widthMm } = columnEdge(laid, i);
      const heightMm = Math.min(row.heightMm - 1.2, 6);
      page.marks.push(
        box([x, page.yMm + (row.heightMm - heightMm) / 2], widthMm - 0.4, heightMm, {
          stroke: { widthMm: 0.13, grey: 0.45 },
        }),
      );
      return;
    }
    page.marks.push(...setLines(lines, columnEdge(laid, i), top, BODY_PT, 'regular'));
  });
  page.yMm += row.heightMm;
}

function setNotes(page: PageInWork, laid: LaidTable): void {
  page.yMm += laid.notes.length === 0 ? 0 : 3;
  for (const note of laid.notes) {
    page.marks.push(text([MARGIN_MM.left, page.yMm + lineMm(NOTE_PT) * 0.8], note, NOTE_PT, { grey: 0.2 }));
    page.yMm += lineMm(NOTE_PT);
  }
}

interface Edge {
  readonly x: number;
  readonly widthMm: number;
  readonly numbers: boolean;
}

function columnEdge(laid: LaidTable, i: number): Edge {
  return {
    x: MARGIN_MM.left + sum(laid.widths.slice(0, i)),
    widthMm: laid.widths[i] - CELL_PAD_MM,
    numbers: holdsNumbers(laid.table, i),
  };
}

/** Columns of figures are set against their right edge. */
const holdsNumbers = (table: Table, i: number): boolean => {
  const column: Column = table.columns[i];
  if (column.blank) return false;
  const filled = table.rows.map((row) => row[i]).filter((cell) => cell !== null && cell !== undefined);
  return filled.length > 0 && filled.every((cell) => typeof cell === 'number');
};

const setLines = (
  lines: readonly string[],
  { x, widthMm, numbers }: Edge,
  topMm: number,
  sizePt: number,
  weight: 'regular' | 'bold',
): Mark[] =>
  lines
    .map((words, k): Mark => {
      const at: PointMm = [numbers ? x + widthMm : x, topMm + (k + 0.8) * lineMm(sizePt)];
      return text(at, words, sizePt, { weight, ...(numbers ? { anchor: 'end' } : {}) });
    })
    .filter((mark) => mark.type === 'text' && mark.text !== '');

/** Across the page at the present height. */
function rule(page: PageInWork, widthMm: number): Mark {
  const { left, right } = MARGIN_MM;
  return line(
    [
      [left, page.yMm],
      [page.size.widthMm - right, page.yMm],
    ],
    { widthMm, ...(widthMm < 0.1 ? { grey: 0.35 } : {}) },
  );
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
