import { rayThrough } from '../../camera/projection.ts';
import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import { type ArrivalGroup, type FrameGrid, type GridTracer, groupKey } from './frameGrid.ts';
import type { Arrival } from './specularTree.ts';
import { SurfaceKind, type SurfaceTable } from './surfaceTable.ts';

/** Places in a cell, from its middle, for a closer look, a turned square; and for one closer still, eight between these. */
const CLOSER_PLACES = [
  [
    [-0.125, -0.375],
    [0.375, -0.125],
    [0.125, 0.375],
    [-0.375, 0.125],
  ],
  [
    [-0.4, -0.28],
    [-0.2, -0.14],
    [0.14, -0.2],
    [0.28, -0.4],
    [0.4, 0.28],
    [0.2, 0.14],
    [-0.14, 0.2],
    [-0.28, 0.4],
  ],
] as const;
/** Rays that a cell has had before each. */
const RAYS_BEFORE = [1, 5] as const;
/** A ray that splits into so many ways has met glass. */
const BENT_WAYS = 4;
/** Cells that differ by less than this count as even: a quarter of a stop. */
const EVEN_RATIO = 2 ** 0.25;

/**
 * Follows one ray through the middle of each cell. Where four cells two apart show one matte or slightly rough face in even
 * light, those between them are filled in.
 *
 * @param skip cells for which it is true stay empty; none are filled in then
 */
export function traceFrameGrid(
  tracer: GridTracer,
  columns: number,
  rows: number,
  skip?: (originM: Vec3, direction: Vec3) => boolean,
): FrameGrid {
  const count = columns * rows;
  const grid: FrameGrid = {
    columns,
    rows,
    totalNits: new Float32Array(count),
    lampSurface: new Int32Array(count).fill(-1),
    firstSurface: new Int32Array(count).fill(-1),
    rayCell: [],
    rayTotalNits: [],
    raysOfCell: new Uint8Array(count),
    isBent: new Uint8Array(count),
    groups: [],
  };
  const look = createLook(tracer, grid);
  const { tree } = tracer;
  const isDone = new Uint8Array(count);
  const traceCell = (column: number, row: number): void => {
    const cell = row * columns + column;
    if (isDone[cell]) return;
    isDone[cell] = 1;
    if (!look(cell, 0, 0, 1, skip)) return;
    grid.lampSurface[cell] = tree.lampInView.surfaceIndex;
    grid.firstSurface[cell] = tree.firstHit.surfaceIndex;
    grid.isBent[cell] = tree.ways.count >= BENT_WAYS ? 1 : 0;
  };
  const step = skip ? 1 : 2;
  for (let row = 0; row < rows; row += step)
    for (let column = 0; column < columns; column += step) traceCell(column, row);
  if (skip) return grid;
  const fill = createFill(tracer.table, grid, isDone);
  for (let row = 0; row + 2 < rows; row += 2)
    for (let column = 0; column + 2 < columns; column += 2) fill(row * columns + column);
  for (let row = 0; row < rows; row++) for (let column = 0; column < columns; column++) traceCell(column, row);
  return grid;
}

/**
 * Looks at cells more closely: by four more rays each (level 0), or by eight more where they have had those (level 1). Others are
 * left as they are.
 *
 * @returns how many it looked at
 */
export function refineCells(tracer: GridTracer, grid: FrameGrid, cells: Iterable<number>, level: 0 | 1): number {
  const look = createLook(tracer, grid);
  const [places, before] = [CLOSER_PLACES[level], RAYS_BEFORE[level]];
  const weight = 1 / (before + places.length);
  let count = 0;
  for (const cell of cells) {
    if (grid.raysOfCell[cell] !== before) continue;
    grid.totalNits[cell] *= before * weight;
    for (const { nits } of grid.groups) nits[cell] *= before * weight;
    for (const [across, down] of places) look(cell, across, down, weight);
    count++;
  }
  return count;
}

/** Follows one ray through a cell, so many cells from its middle; false where it was skipped. */
type Look = (
  cell: number,
  across: number,
  down: number,
  weight: number,
  skip?: (originM: Vec3, direction: Vec3) => boolean,
) => boolean;

function createLook({ view, tree, table }: GridTracer, grid: FrameGrid): Look {
  const { columns, rows, totalNits, raysOfCell, rayCell, rayTotalNits, groups } = grid;
  const groupAt = new Map(groups.map((group) => [group.id, group]));
  let cellNow = 0;
  let weightNow = 1;
  const onArrival = (arrival: Arrival): void => {
    const id = groupKey(table, arrival);
    let group = groupAt.get(id);
    if (!group) {
      group = newGroup(table, id, arrival, totalNits.length);
      groupAt.set(id, group);
      groups.push(group);
    }
    group.nits[cellNow] += weightNow * arrival.luminanceNits;
    addToRay(group, rayCell.length, arrival.luminanceNits);
  };
  return (cell, across, down, weight, skip) => {
    const row = Math.floor(cell / columns);
    const u = (cell - row * columns + 0.5 + across) / columns;
    const { originM, direction } = rayThrough(view, u, (row + 0.5 + down) / rows);
    if (skip?.(originM, direction)) return false;
    cellNow = cell;
    weightNow = weight;
    tree.follow(originM, direction, onArrival);
    const nits = luminanceFromRec2020([tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]]);
    totalNits[cell] += weight * nits;
    rayCell.push(cell);
    rayTotalNits.push(nits);
    raysOfCell[cell]++;
    return true;
  };
}

/** Group of an arrival that is the first of its kind. */
export const newGroup = (
  table: SurfaceTable,
  id: number,
  { sourceSurface, firstSurface, transmitted, events }: Arrival,
  cellCount: number,
): ArrivalGroup => ({
  id,
  sourceRecord: table.record[sourceSurface],
  firstRecord: table.record[firstSurface],
  firstSurface,
  transmitted,
  direct: events === 1,
  nits: new Float32Array(cellCount),
  rays: [],
  rayNits: [],
});

function addToRay({ rays, rayNits }: ArrivalGroup, ray: number, nits: number): void {
  if (rays[rays.length - 1] === ray) rayNits[rayNits.length - 1] += nits;
  else {
    rays.push(ray);
    rayNits.push(nits);
  }
}

/** Fills in the five cells between a cell and those two to the right and two below, where the four agree. */
function createFill(table: SurfaceTable, grid: FrameGrid, isDone: Uint8Array): (cell: number) => void {
  const { columns, totalNits, firstSurface, lampSurface, raysOfCell, rayCell, rayTotalNits, groups } = grid;
  const isEven = table.kind.map((_, s) => (showsEvenly(table, s) ? 1 : 0));
  const agree = (a: number, b: number, c: number, d: number): boolean => {
    const s = firstSurface[a];
    if (firstSurface[b] !== s || firstSurface[c] !== s || firstSurface[d] !== s) return false;
    if (s < 0) return true;
    if (!isEven[s]) return false;
    const [na, nb, nc, nd] = [totalNits[a], totalNits[b], totalNits[c], totalNits[d]];
    return Math.max(na, nb, nc, nd) <= EVEN_RATIO * Math.min(na, nb, nc, nd);
  };
  const mixInto = (to: number, a: number, b: number, c: number, d: number): void => {
    if (isDone[to]) return;
    isDone[to] = 1;
    totalNits[to] = (totalNits[a] + totalNits[b] + totalNits[c] + totalNits[d]) / 4;
    firstSurface[to] = firstSurface[a];
    lampSurface[to] = lampSurface[a];
    for (const group of groups) {
      const { nits } = group;
      nits[to] = (nits[a] + nits[b] + nits[c] + nits[d]) / 4;
      if (nits[to] > 0) addToRay(group, rayCell.length, nits[to]);
    }
    rayCell.push(to);
    rayTotalNits.push(totalNits[to]);
    raysOfCell[to] = 1;
  };
  return (a) => {
    const [b, c, d] = [a + 2, a + 2 * columns, a + 2 * columns + 2];
    if (!agree(a, b, c, d)) return;
    mixInto(a + 1, a, a, b, b);
    mixInto(a + columns, a, a, c, c);
    mixInto(a + columns + 1, a, b, c, d);
    mixInto(c + 1, c, c, d, d);
    mixInto(b + columns, b, b, d, d);
  };
}

/** Does a surface show nothing finer than a couple of cells: no sharp mirror image, no lamp, nothing through it? */
function showsEvenly(table: SurfaceTable, s: number): boolean {
  const kind = table.kind[s];
  if (kind === SurfaceKind.matte || kind === SurfaceKind.translucent) return true;
  return table.isRough[s] === 1;
}
