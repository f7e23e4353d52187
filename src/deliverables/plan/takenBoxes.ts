import { type Box, growBox, sharedAreaMm2 } from './boxes.ts';

/** What is set on a sheet already, for finding free places. */
export interface TakenBoxes {
  add(...boxes: readonly Box[]): void;
  /** Area of a box that others cover, each counted for itself, mm2. */
  coveredMm2(box: Box, marginMm: number): number;
  /** Nothing reaches into the box by more than a hair. */
  isFree(box: Box, marginMm: number): boolean;
}

const CELL_MM = 8;
const HAIR_MM2 = 0.05;

/** Boxes sorted into cells of a grid, so that a full sheet is searched as quickly as an empty one. */
export function createTakenBoxes(): TakenBoxes {
  const cells = new Map<string, Box[]>();
  const keysOf = ({ x0, y0, x1, y1 }: Box): string[] => {
    const keys: string[] = [];
    for (let i = Math.floor(x0 / CELL_MM); i <= Math.floor(x1 / CELL_MM); i++) {
      for (let j = Math.floor(y0 / CELL_MM); j <= Math.floor(y1 / CELL_MM); j++) keys.push(`${i} ${j}`);
    }
    return keys;
  };
  const near = (box: Box): Set<Box> => new Set(keysOf(box).flatMap((key) => cells.get(key) ?? []));
  return {
    add(...boxes) {
      for (const box of boxes) {
        for (const key of keysOf(box)) {
          const cell = cells.get(key);
          if (cell) cell.push(box);
          else cells.set(key, [box]);
        }
      }
    },
    coveredMm2(box, marginMm) {
      const grown = growBox(box, marginMm);
      let covered = 0;
      for (const other of near(grown)) covered += sharedAreaMm2(grown, other);
      return covered;
    },
    isFree(box, marginMm) {
      const grown = growBox(box, marginMm);
      for (const other of near(grown)) if (sharedAreaMm2(grown, other) > HAIR_MM2) return false;
      return true;
    },
  };
}
