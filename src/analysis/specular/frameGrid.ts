import { rayThrough } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Arrival, SpecularTree } from './specularTree.ts';
import { SurfaceKind, type SurfaceTable } from './surfaceTable.ts';
import { SMOOTH_ROUGHNESS } from './traceChains.ts';

/** All arrivals from one record by way of one first record and one kind of first event. */
export interface ArrivalGroup {
  readonly id: number;
  readonly sourceRecord: number;
  readonly firstRecord: number;
  /** First surface of the arrival that was met first. */
  readonly firstSurface: number;
  /** Went through the first surface rather than bounced off it. */
  readonly transmitted: boolean;
  /** One event only: a plain mirror image (or a plain look through a sheet, which no closed solid gives). */
  readonly direct: boolean;
  /** Luminance that the group adds per cell, cd/m2; 0 where it isn't seen. */
  readonly nits: Float32Array;
}

/** The frame as a grid of rays through the lens centre, one in the middle of each cell; row 0 at the top. */
export interface FrameGrid {
  readonly columns: number;
  readonly rows: number;
  /** Luminance of each cell, everything included, cd/m2 under the gains. */
  readonly totalNits: Float32Array;
  /** Surface of a lamp that the cell looks straight at, or -1. */
  readonly lampSurface: Int32Array;
  /** First surface met, or -1. */
  readonly firstSurface: Int32Array;
  readonly groups: ArrivalGroup[];
}

export interface GridTracer {
  readonly view: CameraView;
  readonly tree: SpecularTree;
  readonly table: SurfaceTable;
}

/** Cells of about equal sides, `cellCount` of them in all. */
export function gridSize(view: CameraView, cellCount: number): { columns: number; rows: number } {
  const aspect = view.tanHalfWidth / view.tanHalfHeight;
  const columns = Math.max(2, Math.round(Math.sqrt(cellCount * aspect)));
  return { columns, rows: Math.max(2, Math.round(columns / aspect)) };
}

/** Places in a cell, beside its middle, at which it is looked at again where the light bends: a turned square. */
const BENT_PLACES = [
  [-0.125, -0.375],
  [0.375, -0.125],
  [0.125, 0.375],
  [-0.375, 0.125],
] as const;
/** A ray that splits into so many ways has met glass. */
const BENT_WAYS = 4;

/**
 * Follows one ray through the middle of each cell, and four more where the first one met glass, for what shows there is often
 * smaller than a cell. Cells between four others that show one even matte or slightly rough face are filled in between them.
 *
 * @param skip cells for which it is true stay empty; none are filled in then
 */
export function traceFrameGrid(
  { view, tree, table }: GridTracer,
  columns: number,
  rows: number,
  skip?: (originM: Vec3, direction: Vec3) => boolean,
): FrameGrid {
  const count = columns * rows;
  const totalNits = new Float32Array(count);
  const lampSurface = new Int32Array(count).fill(-1);
  const firstSurface = new Int32Array(count).fill(-1);
  const groups: ArrivalGroup[] = [];
  const groupAt = new Map<number, ArrivalGroup>();
  const isDone = new Uint8Array(count);
  let cell = 0;
  let weight = 1;
  const onArrival = (arrival: Arrival): void => {
    const key = groupKey(table, arrival);
    let group = groupAt.get(key);
    if (!group) {
      group = {
        id: key,
        sourceRecord: table.record[arrival.sourceSurface],
        firstRecord: table.record[arrival.firstSurface],
        firstSurface: arrival.firstSurface,
        transmitted: arrival.transmitted,
        direct: arrival.events === 1,
        nits: new Float32Array(count),
      };
      groupAt.set(key, group);
      groups.push(group);
    }
    group.nits[cell] += weight * arrival.luminanceNits;
  };
  const look = (column: number, row: number): void => {
    const { originM, direction } = rayThrough(view, (column + 0.5) / columns, (row + 0.5) / rows);
    if (skip?.(originM, direction)) return;
    tree.follow(originM, direction, onArrival);
    totalNits[cell] += weight * luminanceFromRec2020([tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]]);
  };
  const traceCell = (column: number, row: number): void => {
    cell = row * columns + column;
    if (isDone[cell]) return;
    isDone[cell] = 1;
    weight = 1;
    tree.firstHit.surfaceIndex = -1;
    tree.lampInView.surfaceIndex = -1;
    tree.ways.count = 0;
    look(column, row);
    lampSurface[cell] = tree.lampInView.surfaceIndex;
    firstSurface[cell] = tree.firstHit.surfaceIndex;
    if (tree.ways.count < BENT_WAYS) return;
    weight = 1 / (BENT_PLACES.length + 1);
    totalNits[cell] *= weight;
    for (const { nits } of groups) nits[cell] *= weight;
    for (const [across, down] of BENT_PLACES) look(column + across, row + down);
  };

  // Cells at even places first; one between four of them that agree is filled in.
  const step = skip ? 1 : 2;
  for (let row = 0; row < rows; row += step)
    for (let column = 0; column < columns; column += step) traceCell(column, row);
  if (step === 1) return { columns, rows, totalNits, lampSurface, firstSurface, groups };
  const [lastColumn, lastRow] = [columns - 1 - ((columns - 1) % 2), rows - 1 - ((rows - 1) % 2)];
  const agree = (a: number, b: number, c: number, d: number): boolean => {
    const s = firstSurface[a];
    if (s < 0) return firstSurface[b] < 0 && firstSurface[c] < 0 && firstSurface[d] < 0;
    if (firstSurface[b] !== s || firstSurface[c] !== s || firstSurface[d] !== s || !isEven[s]) return false;
    const [na, nb, nc, nd] = [totalNits[a], totalNits[b], totalNits[c], totalNits[d]];
    return Math.max(na, nb, nc, nd) <= EVEN_RATIO * Math.min(na, nb, nc, nd);
  };
  const isEven = table.kind.map((_, s) => (showsEvenly(table, s) ? 1 : 0));
  const mixInto = (to: number, a: number, b: number, c: number, d: number): void => {
    totalNits[to] = (totalNits[a] + totalNits[b] + totalNits[c] + totalNits[d]) / 4;
    firstSurface[to] = firstSurface[a];
    lampSurface[to] = lampSurface[a];
    for (const { nits } of groups) {
      const sum = nits[a] + nits[b] + nits[c] + nits[d];
      if (sum > 0) nits[to] = sum / 4;
    }
    isDone[to] = 1;
  };
  for (let row = 0; row < lastRow; row += 2) {
    for (let column = 0; column < lastColumn; column += 2) {
      const a = row * columns + column;
      const [b, c, d] = [a + 2, a + 2 * columns, a + 2 * columns + 2];
      if (agree(a, b, c, d)) {
        if (!isDone[a + 1]) mixInto(a + 1, a, a, b, b);
        if (!isDone[a + columns]) mixInto(a + columns, a, a, c, c);
        mixInto(a + columns + 1, a, b, c, d);
        if (!isDone[c + 1]) mixInto(c + 1, c, c, d, d);
        if (!isDone[b + columns]) mixInto(b + columns, b, b, d, d);
      }
    }
  }
  for (let row = 0; row < rows; row++) for (let column = 0; column < columns; column++) traceCell(column, row);
  return { columns, rows, totalNits, lampSurface, firstSurface, groups };
}

/** Four cells that differ by less than this count as even: a quarter of a stop. */
const EVEN_RATIO = 2 ** 0.25;

/** Does a surface show nothing finer than a couple of cells: no sharp mirror image, no lamp, nothing through it? */
function showsEvenly(table: SurfaceTable, s: number): boolean {
  const kind = table.kind[s];
  if (kind === SurfaceKind.matte || kind === SurfaceKind.translucent) return true;
  return (kind === SurfaceKind.gloss || kind === SurfaceKind.metal) && table.roughness[s] > SMOOTH_ROUGHNESS;
}

/** Equal for arrivals that belong to one group. */
export const groupKey = (table: SurfaceTable, arrival: Arrival): number => {
  const records = table.recordIds.length;
  const pair = table.record[arrival.sourceSurface] * records + table.record[arrival.firstSurface];
  return pair * 4 + (arrival.transmitted ? 2 : 0) + (arrival.events === 1 ? 1 : 0);
};

/** Does a group of plain mirror images show at a place in the frame? Cheaper than {@link probeGroup}. */
export function isPlainImageAt({ view, tree, table }: GridTracer, groupId: number, u: number, v: number): boolean {
  const { originM, direction } = rayThrough(view, u, v);
  let shows = false;
  const onArrival = (arrival: Arrival): void => {
    if (arrival.luminanceNits > 0 && groupKey(table, arrival) === groupId) shows = true;
  };
  tree.follow(originM, direction, onArrival, 1);
  return shows;
}

/** What one group and everything together add at a place in the frame, cd/m2. */
export function probeGroup(
  { view, tree, table }: GridTracer,
  groupId: number,
  u: number,
  v: number,
): { groupNits: number; totalNits: number; chainM: readonly Vec3[] | null; mirrorSurface: number } {
  const { originM, direction } = rayThrough(view, u, v);
  let groupNits = 0;
  let brightest = 0;
  let mirrorSurface = -1;
  let chainM: readonly Vec3[] | null = null;
  tree.follow(originM, direction, (arrival, chainOf) => {
    if (groupKey(table, arrival) !== groupId) return;
    groupNits += arrival.luminanceNits;
    if (arrival.luminanceNits > brightest) {
      brightest = arrival.luminanceNits;
      mirrorSurface = arrival.mirrorSurface;
      chainM = chainOf();
    }
  });
  return {
    groupNits,
    totalNits: luminanceFromRec2020([tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]]),
    chainM,
    mirrorSurface,
  };
}
