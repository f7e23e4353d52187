import type { OpticalSurface } from '../../materials/surface.ts';
import type { FrameSet } from '../frameSet.ts';
import { isTable } from '../pieceRoles.ts';
import { gapBetweenM } from './surfaceGap.ts';

/** Lights nearer than this to paper, cloth or card are named. Common practice, no source. */
export const CLOSE_M = 0.3;

interface Named {
  readonly id: string;
  readonly name: string;
}

/** Lights and sheets whose plumb line falls on a table, a sweep or a base in some frame. */
export function hangingOver(frames: readonly FrameSet[]): Named[] {
  const found = new Map<string, Named>();
  for (const { scene, set } of frames) {
    const tables = scene.pieces.filter(isTable).flatMap(({ id }) => set.boundsByRecord.get(id) ?? []);
    for (const { id, name, positionM } of [...scene.fixtures, ...scene.grip]) {
      const lowest = set.boundsByRecord.get(id)?.minM[1] ?? positionM[1];
      const isOver = tables.some(
        ({ minM, maxM }) =>
          positionM[0] > minM[0] && positionM[0] < maxM[0] && positionM[2] > minM[2] && positionM[2] < maxM[2],
      );
      if (isOver && lowest > HANGS_OVER_M) found.set(id, { id, name });
    }
  }
  return [...found.values()];
}
/** What begins lower over the table stands on it. */
const HANGS_OVER_M = 0.1;

export interface HeatGap {
  readonly light: Named;
  readonly other: Named;
  /** From any part of the light to the other, to a few millimetres. */
  readonly gapM: number;
}

/** Lights close to paper sweeps, diffusion cloths or cards; the nearest gap over the frames. */
export function closeToHeat(frames: readonly FrameSet[]): HeatGap[] {
  const closest = new Map<string, HeatGap>();
  for (const { scene, set } of frames) {
    const surfacesOf = (id: string): OpticalSurface[] => set.surfaces.filter(({ recordId }) => recordId === id);
    const burnable: Named[] = [
      ...scene.pieces.filter(({ kind }) => kind === 'sweep'),
      ...scene.grip.filter(({ kind }) => kind !== 'flag'),
    ];
    for (const light of scene.fixtures) {
      for (const other of burnable) {
        const gapM = gapBetweenM(surfacesOf(light.id), surfacesOf(other.id), CLOSE_M);
        const key = `${light.id} ${other.id}`;
        if (gapM < (closest.get(key)?.gapM ?? CLOSE_M)) closest.set(key, { light, other, gapM });
      }
    }
  }
  return [...closest.values()].sort((a, b) => a.gapM - b.gapM);
}
