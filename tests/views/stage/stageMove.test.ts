import { expect, test } from 'vitest';
import { normalize, type Vec3 } from '../../../src/core/vec3.ts';
import { heightBeside, meetLevel } from '../../../src/views/stage/stageMove.ts';

test('a ray that falls 3 m over 4 m meets the floor 4 m ahead', () => {
  const ray = { originM: [0, 3, 0] as Vec3, direction: normalize([0, -3, -4]) };
  const [x, y, z] = meetLevel(ray, 0) ?? [Number.NaN, Number.NaN, Number.NaN];
  expect(x).toBeCloseTo(0, 12);
  expect(y).toBeCloseTo(0, 12);
  expect(z).toBeCloseTo(-4, 12);
});

test('level, rising and far rays meet no floor', () => {
  expect(meetLevel({ originM: [0, 1, 0], direction: [0, 0, -1] }, 0)).toBeNull();
  expect(meetLevel({ originM: [0, 1, 0], direction: normalize([0, 1, -1]) }, 0)).toBeNull();
  expect(meetLevel({ originM: [0, 1, 0], direction: normalize([0, -0.03, -1]) }, 0)).toBeNull();
});

test('a level ray at 0.7 m that passes an upright touches it at 0.7 m, near or aside', () => {
  const ray = { originM: [0, 0.7, 2] as Vec3, direction: [0, 0, -1] as Vec3 };
  expect(heightBeside(ray, [0, 0.1, 0])).toBeCloseTo(0.7, 12);
  expect(heightBeside(ray, [0.5, 0.1, -3])).toBeCloseTo(0.7, 12);
});

test('a slanting ray is nearest to an upright where it crosses it', () => {
  // From (0, 2, 2) down to (0, 0.5, 0) and on.
  expect(heightBeside({ originM: [0, 2, 2], direction: normalize([0, -1.5, -2]) }, [0, 0, 0])).toBeCloseTo(0.5, 12);
});

test('an upright ray has no height beside an upright', () => {
  expect(heightBeside({ originM: [1, 2, 0], direction: [0, -1, 0] }, [0, 0, 0])).toBeNull();
});
