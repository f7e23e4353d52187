import { describe, expect, it } from 'vitest';
import { FADER_LOWEST_STOPS, stopsAfterKey } from '../../../src/views/desk/Fader.tsx';

describe('the fader by keyboard', () => {
  it('goes down by a third of a stop, from 0 over -1/3 to -2/3', () => {
    const once = stopsAfterKey('ArrowDown', false, 0);
    expect(once).toBeCloseTo(-1 / 3, 12);
    expect(stopsAfterKey('ArrowDown', false, once ?? 0)).toBeCloseTo(-2 / 3, 12);
  });

  it('goes by whole stops with Shift and with the page keys', () => {
    expect(stopsAfterKey('ArrowDown', true, -1)).toBe(-2);
    expect(stopsAfterKey('PageUp', false, -3)).toBe(-2);
  });

  it('stops at full and at the lowest mark', () => {
    expect(stopsAfterKey('ArrowUp', true, -0.2)).toBe(0);
    expect(stopsAfterKey('ArrowDown', true, FADER_LOWEST_STOPS)).toBe(FADER_LOWEST_STOPS);
    expect([stopsAfterKey('Home', false, -2), stopsAfterKey('End', false, -2)]).toEqual([-8, 0]);
  });

  it('brings a value off the scale back to thirds', () => {
    expect(stopsAfterKey('ArrowUp', false, -1.3)).toBeCloseTo(-1, 12);
  });

  it('leaves every other key alone', () => {
    expect(stopsAfterKey('m', false, -1)).toBeNull();
  });
});
