import { expect, test } from 'vitest';
import { layOutDimension } from '../../../src/views/drawing/dimensionLayout.ts';
import type { LinearDimension } from '../../../src/views/drawing/dimensions.ts';
import type { SheetPoint } from '../../../src/views/drawing/projection.ts';

const px = ([u, v]: SheetPoint) => [u * 100 + 200, v * 100 + 200] as const;

const linear = (to: SheetPoint, text = '1.00 m'): LinearDimension => ({
  kind: 'linear',
  measures: 'horizontal distance',
  from: [0, 0],
  to,
  awayFrom: [0, 1],
  clearM: 0,
  valueM: 1,
  text,
});

test('figures read from below or from the right, whichever way the line runs', () => {
  for (let deg = 0; deg < 360; deg += 15) {
    const a = (deg * Math.PI) / 180;
    const { turnDeg } = layOutDimension(linear([Math.cos(a), Math.sin(a)]), px, 100);
    expect(turnDeg, `${deg}`).toBeGreaterThanOrEqual(-90);
    expect(turnDeg, `${deg}`).toBeLessThan(90);
  }
});

test('a dimension line runs as far as what it measures, 22 px off it', () => {
  const { reach } = layOutDimension(linear([1, 0]), px, 100);
  expect(reach).toEqual([
    [200, 222],
    [300, 222],
  ]);
});

test('a line too short for its figure has it beyond the line', () => {
  const long = layOutDimension(linear([1, 0]), px, 100);
  const short = layOutDimension(linear([0.2, 0]), px, 100);
  expect(long.figureAt).toEqual([250, 222]);
  expect(short.figureAt[1]).toBeGreaterThan(230);
});
