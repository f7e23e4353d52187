import { expect, test } from 'vitest';
import { mergeLines } from '../../../src/views/drawing/mergeLines.ts';

test('four edges drawn twice and out of order are one closed line of four corners', () => {
  const edges = [
    [
      [0, 0],
      [1, 0],
    ],
    [
      [1, 1],
      [0, 1],
    ],
    [
      [1, 0],
      [1, 1],
    ],
    [
      [0, 1],
      [0, 0],
    ],
    [
      [1, 0],
      [0, 0],
    ],
    [
      [1, 1],
      [1, 0],
    ],
  ].map(([a, b]) => ({ points: [a as [number, number], b as [number, number]], closed: false }));
  const [ring, ...rest] = mergeLines(edges);
  expect(rest).toEqual([]);
  expect(ring.closed).toBe(true);
  expect(ring.points).toHaveLength(4);
});

test('lines end at forks: a T is three lines', () => {
  const line = (...points: [number, number][]) => ({ points, closed: false });
  expect(mergeLines([line([0, 0], [1, 0]), line([1, 0], [2, 0]), line([1, 0], [1, 1])])).toHaveLength(3);
});

test('a run of pieces is one open line', () => {
  const line = (...points: [number, number][]) => ({ points, closed: false });
  const [run, ...rest] = mergeLines([line([2, 0], [3, 1]), line([0, 0], [1, 0]), line([2, 0], [1, 0])]);
  expect(rest).toEqual([]);
  expect(run.closed).toBe(false);
  expect(run.points).toHaveLength(4);
});
