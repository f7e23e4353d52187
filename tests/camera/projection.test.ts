import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cameraView, frameSize, projectPoint, rayThrough } from '../../src/camera/projection.ts';
import { addScaled, cross, dot, type Vec3 } from '../../src/core/vec3.ts';
import { sampleCamera } from './sampleCamera.ts';

const expectVec = (actual: Vec3, expected: Vec3, digits = 12): void => {
  actual.forEach((v, i) => {
    expect(v).toBeCloseTo(expected[i] ?? Number.NaN, digits);
  });
};

describe('cameraView', () => {
  it('looks along -z with +x to the right for a camera in front of the set', () => {
    const view = cameraView(sampleCamera({ positionM: [0, 0.1, 2], aimM: [0, 0.1, 0] }));
    expectVec(view.forward, [0, 0, -1]);
    expectVec(view.right, [1, 0, 0]);
    expectVec(view.up, [0, 1, 0]);
  });

  it('puts the backdrop at the top of the frame when it looks straight down', () => {
    const view = cameraView(sampleCamera({ positionM: [0, 1.2, 0], aimM: [0, 0, 0] }));
    expectVec(view.right, [1, 0, 0]);
    expectVec(view.up, [0, 0, -1]);
  });

  it('stays right side up when it looks straight up', () => {
    const view = cameraView(sampleCamera({ positionM: [0, -1, 0], aimM: [0, 0, 0] }));
    expectVec(view.right, [1, 0, 0]);
    expectVec(view.up, [0, 0, 1]);
  });

  it('leans to its own right with positive roll, so that up points right at 90 degrees', () => {
    const view = cameraView(sampleCamera({ positionM: [0, 0.1, 2], aimM: [0, 0.1, 0], rollDeg: 90 }));
    expectVec(view.up, [1, 0, 0]);
    expectVec(view.right, [0, -1, 0]);
  });

  it('frames at the distance of the image: 36 mm, f 50 mm focused at 1 m gives v = 52.6316 mm', () => {
    // v = f s/(s - f) = 50 x 1000 / 950.
    const view = cameraView(sampleCamera({ focusDistanceM: 1 }));
    expect(view.tanHalfWidth).toBeCloseTo(18 / 52.631579, 7);
    expect(view.tanHalfHeight).toBeCloseTo(12 / 52.631579, 7);
    expect(view.apertureRadiusM).toBeCloseTo(0.05 / 16, 12);
    expect(view.focusDistanceM).toBe(1);
  });

  it('shows 72 x 48 mm of the subject plane at half life size on 36 x 24 mm', () => {
    // m = .5 at s = 3 f.
    const view = cameraView(sampleCamera({ focalLengthMm: 100, focusDistanceM: 0.3 }));
    expect(2 * view.tanHalfWidth * 0.3).toBeCloseTo(0.072, 12);
    expect(2 * view.tanHalfHeight * 0.3).toBeCloseTo(0.048, 12);
  });

  it('crops inside the sensor for another aspect, never beyond it', () => {
    const camera = sampleCamera();
    expect(frameSize(camera, 16 / 9)).toEqual({ widthM: 0.036, heightM: 0.02025 });
    expect(frameSize(camera, 1)).toEqual({ widthM: 0.024, heightM: 0.024 });
    expect(frameSize(camera)).toEqual({ widthM: 0.036, heightM: 0.024 });
    const view = cameraView(camera, 16 / 9);
    expect(view.tanHalfWidth / view.tanHalfHeight).toBeCloseTo(16 / 9, 12);
    expect(view.tanHalfWidth).toBe(cameraView(camera).tanHalfWidth);
  });

  it('still gives a usable view when focused inside the focal length or aimed at itself', () => {
    const view = cameraView(sampleCamera({ focalLengthMm: 100, focusDistanceM: 0.05, aimM: [0, 0.3, 1.5] }));
    expect(view.tanHalfWidth).toBeCloseTo(0.18, 12);
    expectVec(view.forward, [0, 0, -1]);
  });
});

describe('projectPoint and rayThrough', () => {
  const coordinate = fc.double({ min: -2, max: 2, noNaN: true });
  const angle = fc.double({ min: -180, max: 180, noNaN: true });

  it('puts the aim in the middle and a point up and right of it at u > 0.5, v < 0.5', () => {
    const camera = sampleCamera();
    const view = cameraView(camera);
    expect(projectPoint(view, camera.aimM)?.u).toBeCloseTo(0.5, 12);
    expect(projectPoint(view, camera.aimM)?.v).toBeCloseTo(0.5, 12);
    const upRight = projectPoint(view, [0.1, 0.2, 0]);
    expect(upRight?.u).toBeGreaterThan(0.5);
    expect(upRight?.v).toBeLessThan(0.5);
  });

  it('puts a point at the frame edge by similar triangles: 1.5 m away, 0.5220 m to the right', () => {
    // tan half width = 18 mm / (50 x 1500/1450 mm) = .348; at depth 1.5 m that is .522 m.
    const view = cameraView(sampleCamera({ positionM: [0, 0, 1.5], aimM: [0, 0, 0] }));
    expect(projectPoint(view, [0.522, 0, 0])).toEqual({ u: expect.closeTo(1, 12), v: 0.5, depthM: 1.5 });
  });

  it('gives null for a point behind the lens or in its plane', () => {
    const view = cameraView(sampleCamera({ positionM: [0, 0, 1], aimM: [0, 0, 0] }));
    expect(projectPoint(view, [0, 0, 2])).toBeNull();
    expect(projectPoint(view, [1, 0, 1])).toBeNull();
  });

  it('returns any place in the frame through a ray and back, for any aim and roll', () => {
    fc.assert(
      fc.property(
        fc.tuple(coordinate, coordinate, coordinate),
        angle,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (aimM, rollDeg, u, v) => {
          const view = cameraView(sampleCamera({ positionM: [0.3, 0.4, 3], aimM, rollDeg }));
          const ray = rayThrough(view, u, v);
          const back = projectPoint(view, addScaled(ray.originM, ray.direction, 1.7));
          expect(back?.u).toBeCloseTo(u, 9);
          expect(back?.v).toBeCloseTo(v, 9);
        },
      ),
      { seed: 4 },
    );
  });

  it('has a right-handed, orthonormal frame for any aim and roll', () => {
    fc.assert(
      fc.property(fc.tuple(coordinate, coordinate, coordinate), angle, (aimM, rollDeg) => {
        const { right, up, forward } = cameraView(sampleCamera({ positionM: [0.3, 0.4, 3], aimM, rollDeg }));
        expect(dot(right, right)).toBeCloseTo(1, 10);
        expect(dot(right, up)).toBeCloseTo(0, 10);
        expectVec(cross(right, up), [-forward[0], -forward[1], -forward[2]], 10);
      }),
      { seed: 5 },
    );
  });
});
