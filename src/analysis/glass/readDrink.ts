import { rayThrough } from '../../camera/projection.ts';
import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import { findHeroCells } from '../places/heroCells.ts';
import { forNeighbours } from '../specular/floodRegions.ts';
import type { FrameStudy, HeroPlace, SeenCell } from '../study.ts';

/** Luminance through the liquid of the hero against what is round the glass. */
export interface DrinkReading {
  readonly meanNits: number;
  /** Through the middle of the liquid. */
  readonly centreNits: number;
  readonly centre: SeenCell;
  /** Median beside the glass, at the height of the liquid. */
  readonly surroundingsNits: number;
  readonly cells: readonly SeenCell[];
}

const COLUMNS = 12;
const ROWS = 18;
/** Cells of the frame grid beside the glass that count as its surroundings. */
const RING_STEPS = 3;
const MOST_HITS = 24;

/** Reads the drink of a glass; null when the lens sees none of it. */
export function readDrink(study: FrameStudy, hero: HeroPlace): DrinkReading | null {
  const { set, view, query } = study.input;
  const drinkIds = new Set(
    set.volumes.filter(({ id, recordId }) => recordId === hero.recordId && isDrink(id)).map(({ id }) => id),
  );
  if (drinkIds.size === 0) return null;
  const touchesDrink = (surface: number): boolean => {
    const { frontVolume, backVolume } = set.surfaces[surface];
    return drinkIds.has(frontVolume ?? '') || drinkIds.has(backVolume ?? '');
  };
  const cells = findHeroCells(study.input, hero, COLUMNS, ROWS).filter(({ u, v }) => {
    const { originM, direction } = rayThrough(view, u, v);
    return query.hitsAlong(originM, direction, undefined, MOST_HITS).some((hit) => touchesDrink(hit.surfaceIndex));
  });
  if (cells.length === 0) return null;
  const nits = cells.map(({ u, v }) => nitsAt(study, u, v));
  const middleU = (Math.min(...cells.map(({ u }) => u)) + Math.max(...cells.map(({ u }) => u))) / 2;
  const middleV = (Math.min(...cells.map(({ v }) => v)) + Math.max(...cells.map(({ v }) => v))) / 2;
  const away = ({ u, v }: SeenCell): number => Math.hypot(u - middleU, v - middleV);
  const centre = cells.reduce((best, cell) => (away(cell) < away(best) ? cell : best));
  return {
    meanNits: nits.reduce((sum, value) => sum + value, 0) / nits.length,
    centreNits: nitsAt(study, middleU, middleV),
    centre,
    surroundingsNits: readSurroundings(study, hero, cells),
    cells,
  };
}

/** Volumes of liquid: the drink itself, its layers, its head. */
const isDrink = (volumeId: string): boolean => /:(drink(-\d+)?|foam)$/.test(volumeId);

/** Luminance along the ray through a place in the frame, cd/m2. */
export function nitsAt(study: FrameStudy, u: number, v: number): number {
  const { tree } = study.tracer();
  const { originM, direction } = rayThrough(study.input.view, u, v);
  tree.follow(originM, direction, () => {});
  return luminanceFromRec2020([tree.totalRgb[0], tree.totalRgb[1], tree.totalRgb[2]]);
}

/** Median of the frame grid in a band round the glass, at the height of the liquid, lamps in view left out. */
function readSurroundings(study: FrameStudy, hero: HeroPlace, cells: readonly SeenCell[]): number {
  const grid = study.grid();
  const { table } = study;
  const [low, high] = [Math.min(...cells.map(({ v }) => v)), Math.max(...cells.map(({ v }) => v))];
  const isHero = (cell: number): boolean =>
    grid.firstSurface[cell] >= 0 && table.recordIds[table.record[grid.firstSurface[cell]]] === hero.recordId;
  const reached = new Set<number>();
  let edge: number[] = [];
  for (let cell = 0; cell < grid.firstSurface.length; cell++) if (isHero(cell)) edge.push(cell);
  for (let step = 0; step < RING_STEPS; step++) {
    const next: number[] = [];
    for (const cell of edge)
      forNeighbours(cell, grid.columns, grid.rows, (neighbour) => {
        if (reached.has(neighbour) || isHero(neighbour)) return;
        reached.add(neighbour);
        next.push(neighbour);
      });
    edge = next;
  }
  const values = [...reached]
    .filter((cell) => {
      const v = (Math.floor(cell / grid.columns) + 0.5) / grid.rows;
      return v >= low && v <= high && grid.lampSurface[cell] < 0;
    })
    .map((cell) => grid.totalNits[cell])
    .sort((a, b) => a - b);
  return values.length > 0 ? values[values.length >> 1] : 0;
}
