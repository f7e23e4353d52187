import { describe, expect, it } from 'vitest';
import { createCheckInput } from '../../../../src/analysis/checkInput.ts';
import { circleOfConfusionM, computeDepthOfField } from '../../../../src/camera/depthOfField.ts';
import { cameraView, projectPoint } from '../../../../src/camera/projection.ts';
import { cameraSchema } from '../../../../src/camera/records.ts';
import { emptySetup } from '../../../../src/document/defaults.ts';
import { resolveFrame } from '../../../../src/document/resolveFrame.ts';
import {
  createDepthGrid,
  depthAt,
  fillDepthGrid,
  paintSharpZone,
  signedBlurCircles,
} from '../../../../src/views/frame/overlays/sharpZone.ts';

const camera = cameraSchema.parse({
  positionM: [0, 0.5, 1.2],
  aimM: [0, 0, 0],
  sensorWidthMm: 36,
  sensorHeightMm: 24,
  focalLengthMm: 85,
  focusDistanceM: 1.3,
  apertureFNumber: 4,
  shutterS: 0.02,
  iso: 400,
});

describe('the sharp depth in the frame', () => {
  it('ends where the closed form of the depth of field says, one circle of confusion either way', () => {
    const depth = computeDepthOfField(0.085, 4, 1.3, circleOfConfusionM(camera, 1500), camera.pupilRatio);
    if (!depth) throw new Error('there is an image');
    expect(signedBlurCircles(camera, 1 / depth.nearM, 1500)).toBeCloseTo(-1, 6);
    expect(signedBlurCircles(camera, 1 / depth.farM, 1500)).toBeCloseTo(1, 6);
    expect(Math.abs(signedBlurCircles(camera, 1 / 1.3, 1500))).toBeLessThan(1e-9);
  });

  it('knows the depth of the table top at a place of the frame to 1 mm, between the rays too', () => {
    const scene = resolveFrame(emptySetup(), 'frame:1');
    if (!scene.ok) throw new Error('the empty setup has a frame');
    const input = createCheckInput({ ...scene.value, camera });
    const view = cameraView(camera);
    const grid = createDepthGrid(120, 80);
    fillDepthGrid(input.query, view, grid);
    for (const pointM of [
      [0.14, 0, 0.1],
      [-0.15, 0, 0.05],
      [0.12, 0, -0.12],
    ] as const) {
      const place = projectPoint(view, pointM);
      if (!place) throw new Error('the point is before the lens');
      expect(Math.abs(1 / depthAt(grid, place.u, place.v) - place.depthM)).toBeLessThan(0.001);
    }
  });

  it('leaves what is sharp clear and veils the rest, denser the softer', () => {
    const [near, focus, far] = [0.9, 1.3, 2.5];
    const grid = { columns: 5, rows: 1, perM: Float32Array.of(1 / near, 1 / focus, 1 / focus, 1 / focus, 1 / far) };
    const image = { width: 30, height: 10, data: new Uint8ClampedArray(30 * 10 * 4) } as ImageData;
    paintSharpZone(grid, camera, 1500, image);
    const alphas = (from: number, to: number) =>
      Array.from({ length: 10 * (to - from) }, (_, i) => {
        const x = from + (i % (to - from));
        return image.data[(Math.floor(i / (to - from)) * 30 + x) * 4 + 3];
      });
    expect(Math.max(...alphas(10, 20))).toBe(0);
    expect(Math.min(...alphas(0, 3))).toBeGreaterThan(60);
    expect(Math.min(...alphas(27, 30))).toBeGreaterThan(60);
  });
});
