import { expect, test } from 'vitest';
import { placeNames } from '../../../src/views/drawing/placeNames.ts';
import type { SheetItem } from '../../../src/views/drawing/sheet.ts';

const SIZE = { widthPx: 400, heightPx: 300 };
const VIEW = { centre: [0, 0] as const, pxPerM: 200 };

const item = (recordId: string, u: number, v: number, halfM = 0.05, heldInside = true): SheetItem => ({
  recordId,
  collection: 'fixtures',
  name: `Light ${recordId}`,
  areas: [],
  lines: [],
  hull: [
    [u - halfM, v - halfM],
    [u + halfM, v - halfM],
    [u + halfM, v + halfM],
    [u - halfM, v + halfM],
  ],
  heldInside,
  anchor: [u, v],
  aim: null,
  lit: true,
  nearM: 0,
});

const boxes = (names: ReturnType<typeof placeNames>) =>
  names.map(({ x, y, text, anchor }) => {
    const width = text.length * 5.6;
    const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
    return { left, right: left + width, top: y - 10, bottom: y + 3 };
  });

test('names of a crowd overlap neither one another nor the window', () => {
  const crowd = Array.from({ length: 9 }, (_, i) => item(`${i}`, ((i % 3) - 1) * 0.4, (Math.floor(i / 3) - 1) * 0.3));
  const placed = boxes(placeNames(crowd, VIEW, SIZE, null, []));
  expect(placed.length).toBeGreaterThanOrEqual(6);
  placed.forEach((a, i) => {
    expect(a.left).toBeGreaterThanOrEqual(0);
    expect(a.right).toBeLessThanOrEqual(SIZE.widthPx);
    for (const b of placed.slice(i + 1)) {
      expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
    }
  });
});

test('the selected thing is named even where there is no room', () => {
  const pile = Array.from({ length: 12 }, (_, i) => item(`${i}`, 0.01 * i, 0, 0.4));
  expect(placeNames(pile, VIEW, SIZE, '7', []).map(({ recordId }) => recordId)).toContain('7');
});

test('what is drawn as a speck goes unnamed', () => {
  expect(placeNames([item('speck', 0, 0, 0.01)], VIEW, SIZE, null, [])).toEqual([]);
});
