import { describe, expect, it } from 'vitest';
import { groupDimStops, movedGroup } from '../../../src/views/desk/groupDim.ts';

const lights = (...dims: number[]) => dims.map((dimStops) => ({ dimStops }));
const moved = (dims: number[], to: number) => movedGroup(lights(...dims), to).map(({ dimStops }) => dimStops);

describe('a group of lights', () => {
  it('stands at its brightest dimmer: -0.5 of -2, -0.5 and -3', () => {
    expect(groupDimStops(lights(-2, -0.5, -3))).toBe(-0.5);
    expect(groupDimStops([])).toBeNull();
  });

  it('moves all of its lights by the same stops: one down from -0.5 takes -2 to -3 and -3 to -4', () => {
    expect(moved([-2, -0.5, -3], -1.5)).toEqual([-3, -1.5, -4]);
  });

  it('keeps its ratios at both ends: it stops where the first light meets 0 or -12', () => {
    expect(moved([-2, -0.5, -3], 4)).toEqual([-1.5, 0, -2.5]);
    expect(moved([-2, -0.5, -10], -8)).toEqual([-4, -2.5, -12]);
  });

  it('goes there and back to the same dimmers', () => {
    const there = movedGroup(lights(-1.3, -0.2), -5).map(({ dimStops }) => ({ dimStops }));
    expect(movedGroup(there, -0.2).map(({ dimStops }) => dimStops)).toEqual([-1.3, -0.2]);
  });
});
