import { rayThrough } from '../../camera/projection.ts';
import type { CameraView } from '../../camera/view.ts';
import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { Arrival, SpecularTree } from './specularTree.ts';
import type { SurfaceTable } from './surfaceTable.ts';

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
  /** The rays that show it, ascending, and the luminance that it adds to each. */
  readonly rays: number[];
  readonly rayNits: number[];
}

/** The frame as a grid of cells, each looked at by one ray through the lens centre or by several; row 0 at the top. */
export interface FrameGrid {
  readonly columns: number;
  readonly rows: number;
  /** Luminance of each cell, everything included, cd/m2 under the gains. */
  readonly totalNits: Float32Array;
  /** Surface of a lamp that the cell looks straight at, or -1. */
  readonly lampSurface: Int32Array;
  /** First surface met, or -1. */
  readonly firstSurface: Int32Array;
  /** By ray, its cell, and its luminance, cd/m2; by cell, how many rays it has. */
  readonly rayCell: number[];
  readonly rayTotalNits: number[];
  readonly raysOfCell: Uint8Array;
  /** 1 where the light bends: what shows there may be smaller than a cell. */
  readonly isBent: Uint8Array;
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
