import { Vector4 } from 'three';
import { expect, test } from 'vitest';
import { cameraView, projectPoint } from '../../../src/camera/projection.ts';
import { cameraSchema } from '../../../src/camera/records.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import { cameraMatrices, mirrorMatrix } from '../../../src/views/quick/cameraMatrices.ts';

const camera = cameraSchema.parse({
  positionM: [0.25, 0.42, 1.1],
  aimM: [-0.02, 0.08, 0.01],
  rollDeg: 7,
  focalLengthMm: 85,
  focusDistanceM: 1.1,
  apertureFNumber: 8,
  shutterS: 0.02,
  iso: 100,
});
const POINTS: readonly Vec3[] = [
  [0, 0, 0],
  [0.1, 0.15, -0.2],
  [-0.15, 0.02, 0.1],
  [0.3, 0.3, -0.9],
  [-0.6, 0.9, -2],
];

function project(view: ReturnType<typeof cameraView>, p: Vec3, widthPx: number, heightPx: number) {
  const { viewFromWorld, clipFromView } = cameraMatrices(view);
  const clip = new Vector4(...p, 1).applyMatrix4(viewFromWorld).applyMatrix4(clipFromView);
  return { xPx: (clip.x / clip.w / 2 + 0.5) * widthPx, yPx: (0.5 - clip.y / clip.w / 2) * heightPx };
}

// The tracer's own projection, thin lens focused close up: the quick picture must lie under the traced one.
test.each([
  ['whole sensor', undefined],
  ['cropped to 16:9', 16 / 9],
  ['cropped to 4:5', 0.8],
])('points fall within 0.01 px of the traced picture at 3000 px, %s', (_, aspect) => {
  const view = cameraView(camera, aspect);
  const [widthPx, heightPx] = [3000, (3000 * view.tanHalfHeight) / view.tanHalfWidth];
  for (const p of POINTS) {
    const expected = projectPoint(view, p);
    const got = project(view, p, widthPx, heightPx);
    expect(Math.abs(got.xPx - (expected?.u ?? Number.NaN) * widthPx)).toBeLessThan(0.01);
    expect(Math.abs(got.yPx - (expected?.v ?? Number.NaN) * heightPx)).toBeLessThan(0.01);
  }
});

test('the mirror image in a table 5 mm high lies as far below it', () => {
  const p = new Vector4(0.1, 0.255, -0.3, 1).applyMatrix4(mirrorMatrix([0, 1, 0], [0, 0.005, 0]));
  expect([p.x, p.y, p.z]).toEqual([0.1, expect.closeTo(-0.245, 12), -0.3]);
});

test('mirroring twice changes nothing, in any plane', () => {
  const m = mirrorMatrix([0.6, 0, 0.8], [0.3, 0.1, -0.4]);
  const p = new Vector4(0.7, -0.2, 0.5, 1).applyMatrix4(m).applyMatrix4(m);
  expect(p.x).toBeCloseTo(0.7, 12);
  expect(p.y).toBeCloseTo(-0.2, 12);
  expect(p.z).toBeCloseTo(0.5, 12);
});
