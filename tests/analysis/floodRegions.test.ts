import { describe, expect, it } from 'vitest';
import { floodRegions, ringAround } from '../../src/analysis/specular/floodRegions.ts';

const maskOf = (rows: readonly string[]): { mask: Uint8Array; columns: number; rows: number } => ({
  mask: Uint8Array.from([...rows.join('')].map((cell) => (cell === '#' ? 1 : 0))),
  columns: rows[0].length,
  rows: rows.length,
});

describe('regions of a grid', () => {
  it('joins cells that touch at a corner and parts those that do not, largest first', () => {
    const { mask, columns, rows } = maskOf(['#....', '.#..#', '..#.#', '.....', '#....']);
    expect(floodRegions(mask, columns, rows).map((region) => [...region])).toEqual([[0, 6, 12], [9, 14], [20]]);
  });

  it('does not join across the left and right edge of the frame', () => {
    const { mask, columns, rows } = maskOf(['#..#', '#..#']);
    expect(floodRegions(mask, columns, rows)).toHaveLength(2);
  });

  it('finds one region in a full frame and none in an empty one', () => {
    const full = maskOf(['####', '####']);
    expect(floodRegions(full.mask, 4, 2).map((region) => region.length)).toEqual([8]);
    expect(floodRegions(new Uint8Array(8), 4, 2)).toEqual([]);
  });

  it('rings one cell by 8 at one step and 24 at two, and is cut by the edge of the frame', () => {
    expect(ringAround(Int32Array.of(24), 7, 7, 1)).toHaveLength(8);
    expect(ringAround(Int32Array.of(24), 7, 7, 2)).toHaveLength(24);
    expect(ringAround(Int32Array.of(0), 7, 7, 1).sort((a, b) => a - b)).toEqual([1, 7, 8]);
  });
});
