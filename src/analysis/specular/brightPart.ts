import {
  GLASS_NOTE_OVER_BLACK_STOPS,
  GLASS_NOTE_STOPS,
  REFLECTION_NOTE_STOPS,
  REFLECTION_SEEN_STOPS,
  REFLECTION_VISIBLE_SHARE,
} from '../limits.ts';
import type { FrameStudy } from '../study.ts';
import { forNeighbours } from './floodRegions.ts';
import type { ArrivalGroup } from './frameGrid.ts';
import { measureRing } from './frameRegion.ts';
import { refineCells } from './traceFrameGrid.ts';

/** Cells in which a group adds enough to be seen, and those in which its source is seen in any way. */
export interface SeenMasks {
  of(group: ArrivalGroup): Uint8Array;
  ofSource(group: ArrivalGroup): Uint8Array;
}

/** Where an image stands out from what is round all of it. */
export interface BrightPart {
  /** Area in cells; not whole, for cells may be looked at by several rays. */
  readonly cells: number;
  readonly mask: Uint8Array;
  /** Mean over the part against the surroundings. */
  readonly stops: number;
}

/** An image whose bright part is so many times larger or smaller than the least that is told is looked at more closely. */
const CLOSER_LEAST = 0.25;
const CLOSER_MOST = 3;
/** Cells past those in which it is bright. */
const CLOSER_MARGIN = 3;
/** Nearer than this it is looked at once more. */
const CLOSEST_LEAST = 0.6;
const CLOSEST_MOST = 1.6;

export function createSeenMasks(study: FrameStudy): SeenMasks {
  const { groups, totalNits } = study.grid();
  const factor = 2 ** REFLECTION_SEEN_STOPS - 1;
  const masks = new Map<ArrivalGroup, Uint8Array>();
  const sourceMasks = new Map<number, Uint8Array>();
  const of = (group: ArrivalGroup): Uint8Array => {
    const known = masks.get(group);
    if (known) return known;
    const mask = new Uint8Array(totalNits.length);
    for (let cell = 0; cell < mask.length; cell++) {
      const own = group.nits[cell];
      if (own > 0 && own >= factor * Math.max(study.blackNits, totalNits[cell] - own)) mask[cell] = 1;
    }
    masks.set(group, mask);
    return mask;
  };
  return {
    of,
    ofSource: ({ sourceRecord }) => {
      const known = sourceMasks.get(sourceRecord);
      if (known) return known;
      const mask = new Uint8Array(totalNits.length);
      for (const other of groups) {
        if (other.sourceRecord !== sourceRecord) continue;
        const own = of(other);
        for (let cell = 0; cell < mask.length; cell++) mask[cell] |= own[cell];
      }
      sourceMasks.set(sourceRecord, mask);
      return mask;
    },
  };
}

/**
 * The part of an image in which it adds half a stop or more, and which stands over the median of the ring round all cells that
 * show the image by the least that is told in glass, and over black likewise.
 */
export function brightPart(study: FrameStudy, group: ArrivalGroup, masks: SeenMasks): BrightPart {
  const grid = study.grid();
  const { rayCell, rayTotalNits, raysOfCell } = grid;
  const mask = new Uint8Array(raysOfCell.length);
  const seenMask = masks.of(group);
  const seen = Int32Array.from(seenMask.keys()).filter((cell) => seenMask[cell] === 1);
  if (seen.length === 0) return { cells: 0, mask, stops: 0 };
  const { surroundingsNits } = measureRing(study.tracer(), grid, group, seen, masks.ofSource(group));
  const around = Math.max(study.blackNits, surroundingsNits);
  const least = Math.max(around * 2 ** GLASS_NOTE_STOPS, study.blackNits * 2 ** GLASS_NOTE_OVER_BLACK_STOPS);
  const ownShare = 1 - 2 ** -REFLECTION_NOTE_STOPS;
  let cells = 0;
  let sum = 0;
  group.rays.forEach((ray, i) => {
    const nits = rayTotalNits[ray];
    if (nits < least || group.rayNits[i] < ownShare * nits) return;
    const cell = rayCell[ray];
    cells += 1 / raysOfCell[cell];
    sum += nits / raysOfCell[cell];
    mask[cell] = 1;
  });
  return { cells, mask, stops: cells > 0 ? Math.log2(sum / cells / around) : 0 };
}

/**
 * Images about as large as the least that is told are met by a few rays only, and may be specks all over a glass. All cells of the
 * glass as far as they reach are looked at again before anything is said, and those of the nearest to the limit once more. Every
 * cell there counts alike, met at first or not, so that what few rays met by chance is not made more of.
 */
export function lookCloser(study: FrameStudy, wanted: (group: ArrivalGroup) => boolean): void {
  const grid = study.grid();
  const leastCells = REFLECTION_VISIBLE_SHARE * grid.columns * grid.rows;
  const lookAt = (least: number, most: number, level: 0 | 1): void => {
    const masks = createSeenMasks(study);
    const closer = new Set<number>();
    for (const group of grid.groups) {
      if (!wanted(group)) continue;
      const { cells, mask } = brightPart(study, group, masks);
      if (cells >= least * leastCells && cells <= most * leastCells) addExtent(study, group, mask, closer);
    }
    refineCells(study.tracer(), grid, closer, level);
  };
  lookAt(CLOSER_LEAST, CLOSER_MOST, 0);
  lookAt(CLOSEST_LEAST, CLOSEST_MOST, 1);
}

/** Adds the cells of the record that an image is seen by, as far as the image reaches and a little further, and all next to it. */
function addExtent(
  { grid: gridOf, table }: FrameStudy,
  group: ArrivalGroup,
  mask: Uint8Array,
  cells: Set<number>,
): void {
  const { columns, rows, isBent, firstSurface } = gridOf();
  let [left, right, top, bottom] = [columns, -1, rows, -1];
  mask.forEach((isBright, cell) => {
    if (!isBright) return;
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    [left, right] = [Math.min(left, column), Math.max(right, column)];
    [top, bottom] = [Math.min(top, row), Math.max(bottom, row)];
    if (isBent[cell]) cells.add(cell);
    forNeighbours(cell, columns, rows, (neighbour) => {
      if (isBent[neighbour]) cells.add(neighbour);
    });
  });
  for (let row = Math.max(0, top - CLOSER_MARGIN); row <= Math.min(rows - 1, bottom + CLOSER_MARGIN); row++)
    for (
      let column = Math.max(0, left - CLOSER_MARGIN);
      column <= Math.min(columns - 1, right + CLOSER_MARGIN);
      column++
    ) {
      const cell = row * columns + column;
      if (isBent[cell] && firstSurface[cell] >= 0 && table.record[firstSurface[cell]] === group.firstRecord)
        cells.add(cell);
    }
}
