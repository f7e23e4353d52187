import type { SurfaceTable } from './surfaceTable.ts';

/**
 * Volumes that a ray is inside, as indices; a volume may stand in it more than once where its parts overlap. The one
 * with the highest priority fills the place; the empty list is air.
 */
export type InsideVolumes = readonly number[];

export const IN_AIR: InsideVolumes = [];

/** Index into the set's volumes of the one that fills the place, -1 for air. Equal priorities: the one entered first. */
export function fillingVolume(table: SurfaceTable, inside: InsideVolumes): number {
  let best = -1;
  for (const volume of inside) if (best < 0 || table.volumePriority[volume] > table.volumePriority[best]) best = volume;
  return best;
}

/** The list after crossing a surface: the volume on the side it comes from is left, the one beyond is entered. */
export function crossSurface(
  table: SurfaceTable,
  inside: InsideVolumes,
  surfaceIndex: number,
  fromFront: boolean,
): InsideVolumes {
  const left = fromFront ? table.frontVolume[surfaceIndex] : table.backVolume[surfaceIndex];
  const entered = fromFront ? table.backVolume[surfaceIndex] : table.frontVolume[surfaceIndex];
  if (left < 0 && entered < 0) return inside;
  const after = inside.slice();
  const at = left >= 0 ? after.lastIndexOf(left) : -1;
  if (at >= 0) after.splice(at, 1);
  if (entered >= 0) after.push(entered);
  return after;
}
