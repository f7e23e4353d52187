import { forNeighbours, ringAround } from './floodRegions.ts';
import { type ArrivalGroup, type FrameGrid, type GridTracer, isPlainImageAt } from './frameGrid.ts';

/** One connected patch of the frame in which one group is seen. */
export interface FrameRegion {
  readonly cells: Int32Array;
  /** Part of the frame that it covers, 0..1. */
  readonly share: number;
  readonly centreU: number;
  readonly centreV: number;
  readonly widthU: number;
  readonly heightV: number;
  readonly outlineUv: readonly (readonly [number, number])[];
  /** Cell of the region nearest to its centre, and the brightest. */
  readonly centreCell: number;
  readonly peakCell: number;
  /** Luminance of the patch, all light included, cd/m2. */
  readonly meanNits: number;
  readonly peakNits: number;
  /** Median luminance of the ring round it, cd/m2. */
  readonly surroundingsNits: number;
  /** Whether the ring was taken on the mirroring record alone. */
  readonly onSameRecord: boolean;
}

const SUBCELLS = 4;
const RING_STEPS = 2;
/** A ring of fewer cells than this on the mirror itself is too little to judge by. */
const MIN_RING_CELLS = 4;

/**
 * Measures a connected region: luminance from the grid, outline and area from 4 x 4 rays in each cell of its border.
 *
 * @param refine false keeps to whole cells
 * @param shineCells cells in which the same source shows, which never count as surroundings
 */
export function measureRegion(
  tracer: GridTracer,
  grid: FrameGrid,
  group: ArrivalGroup,
  cells: Int32Array,
  shineCells: Uint8Array,
  refine: boolean,
): FrameRegion {
  const { columns, rows } = grid;
  let sum = 0;
  let peakCell = cells[0];
  for (const cell of cells) {
    sum += grid.totalNits[cell];
    if (grid.totalNits[cell] > grid.totalNits[peakCell]) peakCell = cell;
  }
  const extent = refine ? refineBorder(tracer, grid, group, cells) : wholeCells(grid, cells);
  const { surroundingsNits, onSameRecord } = measureRing(tracer, grid, group, cells, shineCells);
  return {
    ...extentOf(extent, columns * SUBCELLS, rows * SUBCELLS),
    cells,
    centreCell: nearestToCentre(cells, columns),
    peakCell,
    meanNits: sum / cells.length,
    peakNits: grid.totalNits[peakCell],
    surroundingsNits,
    onSameRecord,
  };
}

/** Middle of a cell in the frame. */
export const cellUv = (grid: FrameGrid, cell: number): readonly [number, number] => [
  ((cell % grid.columns) + 0.5) / grid.columns,
  (Math.floor(cell / grid.columns) + 0.5) / grid.rows,
];

/** Where a region starts and ends in each row of the 4 x finer grid, and how much of it there is. */
interface Extent {
  /** First column by row, and the one past the last; -1 where the row has none. */
  readonly left: Int32Array;
  readonly right: Int32Array;
  count: number;
}

const emptyExtent = (rows: number): Extent => ({
  left: new Int32Array(rows * SUBCELLS).fill(-1),
  right: new Int32Array(rows * SUBCELLS).fill(-1),
  count: 0,
});

function addRun(extent: Extent, row: number, from: number, to: number): void {
  const { left, right } = extent;
  left[row] = left[row] < 0 ? from : Math.min(left[row], from);
  right[row] = Math.max(right[row], to);
  extent.count += to - from;
}

/** The region on the finer grid: cells within it whole, those of its border by 4 x 4 rays. */
function refineBorder(tracer: GridTracer, grid: FrameGrid, group: ArrivalGroup, cells: Int32Array): Extent {
  const { columns, rows } = grid;
  const inside = new Set<number>(cells);
  const border = new Set<number>();
  for (const cell of cells) {
    let open = false;
    forNeighbours(cell, columns, rows, (neighbour) => {
      if (inside.has(neighbour)) return;
      open = true;
      if (group.nits[neighbour] === 0) border.add(neighbour);
    });
    if (open) border.add(cell);
  }
  const extent = emptyExtent(rows);
  for (const cell of cells) if (!border.has(cell)) addWholeCell(extent, cell, columns);
  for (const cell of border) {
    const [row, column] = [Math.floor(cell / columns) * SUBCELLS, (cell % columns) * SUBCELLS];
    for (let i = 0; i < SUBCELLS; i++) {
      for (let j = 0; j < SUBCELLS; j++) {
        const u = (column + j + 0.5) / (columns * SUBCELLS);
        const v = (row + i + 0.5) / (rows * SUBCELLS);
        if (isPlainImageAt(tracer, group.id, u, v)) addRun(extent, row + i, column + j, column + j + 1);
      }
    }
  }
  // A source smaller than a subcell still stands somewhere.
  if (extent.count === 0) {
    const middle = (cells[0] % columns) * SUBCELLS + SUBCELLS / 2;
    addRun(extent, Math.floor(cells[0] / columns) * SUBCELLS + SUBCELLS / 2, middle, middle + 1);
  }
  return extent;
}

function wholeCells(grid: FrameGrid, cells: Int32Array): Extent {
  const extent = emptyExtent(grid.rows);
  for (const cell of cells) addWholeCell(extent, cell, grid.columns);
  return extent;
}

function addWholeCell(extent: Extent, cell: number, columns: number): void {
  const [row, column] = [Math.floor(cell / columns) * SUBCELLS, (cell % columns) * SUBCELLS];
  for (let i = 0; i < SUBCELLS; i++) addRun(extent, row + i, column, column + SUBCELLS);
}

/** Area, centre and outline; the outline runs down the left ends of the rows and up the right ends. */
function extentOf({ left, right, count }: Extent, columns: number, rows: number) {
  const rowsSeen = Array.from(left.keys()).filter((row) => left[row] >= 0);
  const minColumn = rowsSeen.reduce((least, row) => Math.min(least, left[row]), columns);
  const maxColumn = rowsSeen.reduce((most, row) => Math.max(most, right[row]), 0);
  const minRow = rowsSeen[0];
  const maxRow = rowsSeen[rowsSeen.length - 1] + 1;
  const step = Math.max(1, Math.ceil(rowsSeen.length / 24));
  const kept = rowsSeen.filter((_, i) => i % step === 0 || i === rowsSeen.length - 1);
  const at = (column: number, row: number): readonly [number, number] => [column / columns, row / rows];
  const outlineUv = [
    at(left[minRow], minRow),
    ...kept.map((row) => at(left[row], row + 0.5)),
    at(left[maxRow - 1], maxRow),
    at(right[maxRow - 1], maxRow),
    ...kept.reverse().map((row) => at(right[row], row + 0.5)),
    at(right[minRow], minRow),
  ];
  return {
    share: count / (columns * rows),
    centreU: (minColumn + maxColumn) / 2 / columns,
    centreV: (minRow + maxRow) / 2 / rows,
    widthU: (maxColumn - minColumn) / columns,
    heightV: (maxRow - minRow) / rows,
    outlineUv,
  };
}

function nearestToCentre(cells: Int32Array, columns: number): number {
  let sumC = 0;
  let sumR = 0;
  for (const cell of cells) {
    sumC += cell % columns;
    sumR += Math.floor(cell / columns);
  }
  const [c, r] = [sumC / cells.length, sumR / cells.length];
  let best = cells[0];
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const cell of cells) {
    const d = ((cell % columns) - c) ** 2 + (Math.floor(cell / columns) - r) ** 2;
    if (d < bestDistance) {
      bestDistance = d;
      best = cell;
    }
  }
  return best;
}

/** Median of the ring round cells, on the mirroring record where enough of it is left, else on whatever is there; cd/m2. */
export function measureRing(
  { table }: GridTracer,
  grid: FrameGrid,
  group: ArrivalGroup,
  cells: Int32Array,
  shineCells: Uint8Array,
): { surroundingsNits: number; onSameRecord: boolean } {
  const free = (cell: number): boolean => !shineCells[cell] && grid.lampSurface[cell] < 0;
  const onRecord = (cell: number): boolean =>
    grid.firstSurface[cell] >= 0 && table.record[grid.firstSurface[cell]] === group.firstRecord;
  const ring = ringAround(cells, grid.columns, grid.rows, RING_STEPS).filter(free);
  const same = ring.filter(onRecord);
  if (same.length >= MIN_RING_CELLS) return { surroundingsNits: medianNits(grid, same), onSameRecord: true };
  if (ring.length >= MIN_RING_CELLS) return { surroundingsNits: medianNits(grid, ring), onSameRecord: false };
  // It fills the frame or meets its edge all round: judge by what else is in frame, or by what lies under it.
  const rest = Array.from(grid.totalNits.keys()).filter(free);
  if (rest.length > 0) return { surroundingsNits: medianNits(grid, rest), onSameRecord: false };
  const under = Array.from(cells, (cell) => Math.max(0, grid.totalNits[cell] - group.nits[cell]));
  return { surroundingsNits: under.reduce((sum, nits) => sum + nits, 0) / under.length, onSameRecord: true };
}

function medianNits(grid: FrameGrid, cells: readonly number[]): number {
  const values = cells.map((cell) => grid.totalNits[cell]).sort((a, b) => a - b);
  const middle = values.length >> 1;
  return values.length % 2 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}
