import { expect, test } from 'vitest';
import {
  fitBounds,
  formatScale,
  gridSteps,
  pxPerMFromScale,
  scaleBarM,
  zoomAbout,
} from '../../../src/views/drawing/sheetScale.ts';

// CSS Values and Units Level 3: 1in = 2.54cm = 96px, so a metre at 1:10 is 100 mm = 377.95 px.
test('1:10 draws a metre 377.95 px long', () => {
  expect(pxPerMFromScale(10)).toBeCloseTo(377.953, 3);
  expect(formatScale(pxPerMFromScale(10))).toBe('1:10');
  expect(formatScale(pxPerMFromScale(17.2))).toBe('1:17');
  expect(formatScale(pxPerMFromScale(2.5))).toBe('1:2.5');
});

test('fits a 2 m x 1 m set into 460 x 400 px at 1:20, the largest usual scale with room', () => {
  // 1:20 needs 2 x 188.98 = 377.95 px of the 420 px between the margins; 1:10 would need 756.
  const view = fitBounds({ min: [-1, -0.25], max: [1, 0.75] }, 460, 400, 20);
  expect(formatScale(view.pxPerM)).toBe('1:20');
  expect(view.centre).toEqual([0, 0.25]);
});

test('zooming keeps the point under the pointer', () => {
  const before = { centre: [0.2, -0.1] as const, pxPerM: 200 };
  const atPx = [120, -60] as const;
  const after = zoomAbout(before, 1.5, atPx);
  expect(after.pxPerM).toBeCloseTo(300, 9);
  for (const i of [0, 1] as const) {
    expect(after.centre[i] + atPx[i] / after.pxPerM).toBeCloseTo(before.centre[i] + atPx[i] / before.pxPerM, 12);
  }
});

test('zoom stops at 1:1', () => {
  expect(formatScale(zoomAbout({ centre: [0, 0], pxPerM: 3000 }, 10, [0, 0]).pxPerM)).toBe('1:1');
});

test('the grid is 10 cm under 50 cm at 1:10 and 1 m at 1:100', () => {
  expect(gridSteps(pxPerMFromScale(10))).toEqual({ fineM: 0.1, coarseM: 0.5 });
  expect(gridSteps(pxPerMFromScale(50))).toEqual({ fineM: 0.5, coarseM: 1 });
  expect(gridSteps(pxPerMFromScale(100)).fineM).toBe(1);
});

test('the scale bar is a round length no longer than asked for', () => {
  expect(scaleBarM(378, 100)).toBe(0.2);
  expect(scaleBarM(189, 100)).toBe(0.5);
});
