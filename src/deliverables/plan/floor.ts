import type { Piece } from '../../scene/records.ts';
import type { SetModel } from '../../scene/setModel.ts';

/** Where the floor is under the table top (y = 0), and how that is known. */
export interface Floor {
  /** Negative. */
  readonly yM: number;
  readonly source: string;
}

/** A foot between these depths under the table top is taken to stand on the floor. Common practice, no source. */
const LEAST_TABLE_M = 0.3;
const MOST_TABLE_M = 1.4;

/**
 * The floor: `tableHeightM` below the table top when that is stated; else the lowest foot of a backdrop or plinth that
 * reaches as far down as tables are high. Null when nothing tells.
 */
export function findFloor(
  pieces: readonly Piece[],
  bounds: SetModel['boundsByRecord'],
  tableHeightM?: number,
): Floor | null {
  if (tableHeightM !== undefined) return { yM: -tableHeightM, source: 'table height as stated' };
  let found: Floor | null = null;
  for (const piece of pieces) {
    const footYM = bounds.get(piece.id)?.minM[1];
    if (footYM === undefined || footYM > -LEAST_TABLE_M || footYM < -MOST_TABLE_M) continue;
    // Bodies stand a hair clear of each other; to the millimetre that is nothing.
    const yM = Math.round(footYM * 1000) / 1000;
    if (!found || yM < found.yM) found = { yM, source: `foot of ${piece.name}` };
  }
  return found;
}
