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
const CLOSER_MOST = 4;
/** Rings of cells round those that show it, and how often it is followed on, ring by ring. */
const CLOSER_STEPS = 2;
const CLOSER_ROUNDS = 4;
/** Nearer than this it is looked at once more. */
const CLOSEST_LEAST = 0.5;
const CLOSEST_MOST = 2;

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
 * Images about as large as the least that is told are found by a few rays only. The cells that show them in glass, and those
 * round these, are looked at again before anything is said; then those round the cells that show them since, for specks of one
 * image lie near one another; and the nearest to the limit more closely still.
 */
export function lookCloser(study: FrameStudy, wanted: (group: ArrivalGroup) => boolean): void {
  const grid = study.grid();
  const leastCells = REFLECTION_VISIBLE_SHARE * grid.columns * grid.rows;
  const nearLimit = (groups: readonly ArrivalGroup[], least: number, most: number): ArrivalGroup[] => {
    const masks = createSeenMasks(study);
    return groups.filter((group) => {
      const { cells } = brightPart(study, group, masks);
      return cells >= least * leastCells && cells <= most * leastCells;
    });
  };
  let near = nearLimit(grid.groups.filter(wanted), CLOSER_LEAST, CLOSER_MOST);
  for (let round = 0; round < CLOSER_ROUNDS && near.length > 0; round++) {
    const steps = round === 0 ? CLOSER_STEPS : 1;
    if (refineCells(study.tracer(), grid, cellsRound(study, near, steps), 0) === 0) break;
    near = nearLimit(near, CLOSER_LEAST, CLOSER_MOST);
  }
  near = nearLimit(near, CLOSEST_LEAST, CLOSEST_MOST);
  if (near.length > 0) refineCells(study.tracer(), grid, cellsRound(study, near, 0), 1);
}

/** Cells that show any of some groups, and so many rings round them, where light bends. */
function cellsRound(study: FrameStudy, groups: readonly ArrivalGroup[], steps: number): Set<number> {
  const { columns, rows, isBent } = study.grid();
  const all = new Set<number>();
  for (const group of groups) {
    let edge = [...group.nits.keys()].filter((cell) => group.nits[cell] > 0);
    const reached = new Set(edge);
    for (let step = 0; step < steps; step++) {
      const next: number[] = [];
      for (const cell of edge)
        forNeighbours(cell, columns, rows, (neighbour) => {
          if (!isBent[neighbour] || reached.has(neighbour)) return;
          reached.add(neighbour);
          next.push(neighbour);
        });
      edge = next;
    }
    for (const cell of reached) if (isBent[cell]) all.add(cell);
  }
  return all;
}
