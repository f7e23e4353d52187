export type Cell = string | number | null;

export interface Column {
  readonly title: string;
  /** Unit of numbers, for example 'mm'. */
  readonly unit?: string;
  /** Decimals of numbers; 0 when left out. */
  readonly digits?: number;
  /** Share of the table's width on paper against the other columns. */
  readonly share: number;
  /** A length of the set in mm, which papers in feet and inches say so. */
  readonly isLength?: true;
  /** Left in print for what is written in by hand. */
  readonly blank?: true;
}

/** One sheet of figures as plain data: the source of both its CSV file and its pages. */
export interface Table {
  /** Stem of the file name. */
  readonly id: string;
  readonly title: string;
  /** What it is of: frame, day. */
  readonly lead?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** In print, repeats in this many first columns are left out. */
  readonly groupedColumns?: number;
  readonly notes: readonly string[];
}

/** A cell as it is read: numbers with the column's decimals, never '-0'; nothing for what is not known. */
export function showCell(cell: Cell, column: Column): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return cell;
  if (!Number.isFinite(cell)) return '';
  const shown = cell.toFixed(column.digits ?? 0);
  return Number(shown) === 0 ? shown.replace('-', '') : shown;
}

export const columnHead = ({ title, unit }: Column): string => (unit ? `${title} (${unit})` : title);
