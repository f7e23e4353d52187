import { expect, test } from 'vitest';
import type { Shape } from '../../../src/core/shape.ts';
import { holdGeometry, releaseGeometry, shapeKey, shelvedCount } from '../../../src/views/resources/geometryShelf.ts';

const disc = (radiusM: number): Shape => ({ type: 'revolvedLine', r0M: radiusM, y0M: 0, r1M: 0, y1M: 0 });

test('equal shapes share one geometry, which is disposed when the last holder lets go', () => {
  const before = shelvedCount();
  const first = holdGeometry(disc(0.041));
  const second = holdGeometry(disc(0.041));
  expect(second).toBe(first);
  let disposed = 0;
  first.addEventListener('dispose', () => disposed++);
  releaseGeometry(disc(0.041));
  expect(disposed).toBe(0);
  releaseGeometry(disc(0.041));
  expect(disposed).toBe(1);
  expect(shelvedCount()).toBe(before);
});

test('another size is another geometry', () => {
  expect(holdGeometry(disc(0.05))).not.toBe(holdGeometry(disc(0.06)));
  releaseGeometry(disc(0.05));
  releaseGeometry(disc(0.06));
});

test('meshes are told apart by their content, not by their arrays', () => {
  const mesh = (x: number): Shape => ({
    type: 'mesh',
    positionsM: new Float32Array([0, 0, 0, x, 0, 0, 0, 1, 0]),
    indices: new Uint32Array([0, 1, 2]),
  });
  expect(shapeKey(mesh(1))).toBe(shapeKey(mesh(1)));
  expect(shapeKey(mesh(1))).not.toBe(shapeKey(mesh(1.001)));
});
