import { forNeighbours, ringAround } from './floodRegions.ts';
import { type ArrivalGroup, type FrameGrid, type GridTracer, probeGroup } from './frameGrid.ts';

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
  const subcells = refine ? refineBorder(tracer, grid, group, cells) : wholeCells(grid, cells);
  const { surroundingsNits, onSameRecord } = measureRing(tracer, grid, group, cells, shineCells);
  return {
    ...extentOf(subcells, columns * SUBCELLS, rows * SUBCELLS),
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

/** Subcells of the region as row-major indices on the 4 x finer grid. */
function refineBorder(tracer: GridTracer, grid: FrameGrid, group: ArrivalGroup, cells: Int32Array): Set<number> {
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
  const subcells = new Set<number>();
  for (const cell of cells) if (!border.has(cell)) addWholeCell(subcells, cell, columns);
  for (const cell of border) {
    const [row, column] = [Math.floor(cell / columns) * SUBCELLS, (cell % columns) * SUBCELLS];
    for (let i = 0; i < SUBCELLS; i++) {
      for (let j = 0; j < SUBCELLS; j++) {
        const u = (column + j + 0.5) / (columns * SUBCELLS);
        const v = (row + i + 0.5) / (rows * SUBCELLS);
        if (probeGroup(tracer, group.id, u, v).groupNits > 0) subcells.add((row + i) * columns * SUBCELLS + column + j);
      }
    }
  }
  // A source smaller than a subcell still stands somewhere.
  if (subcells.size === 0) return new Set([subcellAtCentre(cells[0], columns)]);
  return subcells;
}

function wholeCells(grid: FrameGrid, cells: Int32Array): Set<number> {
  const subcells = new Set<number>();
  for (const cell of cells) addWholeCell(subcells, cell, grid.columns);
  return subcells;
}

function addWholeCell(subcells: Set<number>, cell: number, columns: number): void {
  const [row, column] = [Math.floor(cell / columns) * SUBCELLS, (cell % columns) * SUBCELLS];
  for (let i = 0; i < SUBCELLS; i++)
    for (let j = 0; j < SUBCELLS; j++) subcells.add((row + i) * columns * SUBCELLS + column + j);
}

const subcellAtCentre = (cell: number, columns: number): number =>
  (Math.floor(cell / columns) * SUBCELLS + SUBCELLS / 2) * columns * SUBCELLS +
  (cell % columns) * SUBCELLS +
  SUBCELLS / 2;

/** Area, centre and outline; the outline runs down the left ends of the rows and up the right ends. */
function extentOf(subcells: ReadonlySet<number>, columns: number, rows: number) {
  const left = new Map<number, number>();
  const right = new Map<number, number>();
  for (const subcell of subcells) {
    const row = Math.floor(subcell / columns);
    const column = subcell - row * columns;
    left.set(row, Math.min(column, left.get(row) ?? column));
    right.set(row, Math.max(column, right.get(row) ?? column));
  }
  const rowsSeen = [...left.keys()].sort((a, b) => a - b);
  const minColumn = Math.min(...left.values());
  const maxColumn = Math.max(...right.values()) + 1;
  const minRow = rowsSeen[0];
  const maxRow = rowsSeen[rowsSeen.length - 1] + 1;
  const step = Math.max(1, Math.ceil(rowsSeen.length / 24));
  const kept = rowsSeen.filter((_, i) => i % step === 0 || i === rowsSeen.length - 1);
  const at = (column: number, row: number): readonly [number, number] => [column / columns, row / rows];
  const outlineUv = [
    at(left.get(minRow) ?? 0, minRow),
    ...kept.map((row) => at(left.get(row) ?? 0, row + 0.5)),
    at(left.get(maxRow - 1) ?? 0, maxRow),
    at((right.get(maxRow - 1) ?? 0) + 1, maxRow),
    ...kept.reverse().map((row) => at((right.get(row) ?? 0) + 1, row + 0.5)),
    at((right.get(minRow) ?? 0) + 1, minRow),
  ];
  return {
    share: subcells.size / (columns * rows),
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

/** Median of the ring, on the mirroring record where enough of it is left, else on whatever is there. */
function measureRing(
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
