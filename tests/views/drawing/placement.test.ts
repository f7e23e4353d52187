import { expect, test } from 'vitest';
import { formatBearing, formatM, placementOf } from '../../../src/views/drawing/placement.ts';
import { makeScene } from './makeScene.ts';

// Subject meter point at (0, 0.1, 0), camera straight in front at z = 1.2. 3-4-5 triangles make the distances exact.
test('a light 0.3 m right of and 0.4 m behind the subject stands 0.5 m off along the floor', () => {
  const placement = placementOf(makeScene({ fixturePositionM: [0.3, 1.3, -0.4] }), 'fixture:key');
  expect(placement?.horizontalDistanceM).toBeCloseTo(0.5, 12);
  expect(placement?.heightM).toBe(1.3);
  // Height over the meter point is 1.2 m, so the straight distance is 1.3 m (5-12-13).
  expect(placement?.distanceM).toBeCloseTo(1.3, 12);
});

test('bearing counts from the camera: 90 is camera right, -90 left, 180 straight behind', () => {
  const bearing = (x: number, z: number) =>
    placementOf(makeScene({ fixturePositionM: [x, 0.5, z] }), 'fixture:key')?.bearingDeg;
  expect(bearing(1, 0)).toBeCloseTo(90, 10);
  expect(bearing(-1, 0)).toBeCloseTo(-90, 10);
  expect(bearing(0, -1)).toBeCloseTo(180, 10);
  expect(bearing(0, 1)).toBeCloseTo(0, 10);
  expect(bearing(1, 1)).toBeCloseTo(45, 10);
});

test('bearing follows the camera when the camera walks round: from camera right, a light at +x is at 0', () => {
  const scene = makeScene({ fixturePositionM: [1, 0.5, 0], cameraPositionM: [1.5, 0.3, 0] });
  expect(placementOf(scene, 'fixture:key')?.bearingDeg).toBeCloseTo(0, 10);
});

test('the camera and what stands at the subject have no bearing, a missing record no placement', () => {
  const scene = makeScene({ fixturePositionM: [0, 0.5, 0] });
  expect(placementOf(scene, 'camera')?.bearingDeg).toBeNull();
  expect(placementOf(scene, 'fixture:key')?.bearingDeg).toBeNull();
  expect(placementOf(scene, 'fixture:none')).toBeNull();
});

test('figures are written to the centimetre and bearings by side', () => {
  expect(formatM(1.2349)).toBe('1.23 m');
  expect(formatM(-0.001)).toBe('0.00 m');
  expect(formatBearing(127.6)).toBe('right 128°');
  expect(formatBearing(-34.6)).toBe('left 35°');
  expect(formatBearing(179.9)).toBe('straight behind');
});
