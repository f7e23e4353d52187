import { describe, expect, it } from 'vitest';
import type { PredictedReading } from '../../../src/deliverables/sheets/predictedReadings.ts';
import {
  ALL_LIGHTS,
  cellKey,
  convertCells,
  readDisplay,
  readingsOf,
  showLux,
} from '../../../src/views/handOver/meterCells.ts';

const exposure = { iso: 100, shutterS: 0.02 };
const prediction = (id: string, meterC: number): PredictedReading => ({
  point: {
    id,
    name: id,
    held: '',
    pointM: [0, 0, 0],
    receptor: { type: 'plane', normal: [0, 1, 0] },
    meterC,
    heroAway: false,
  },
  totalLux: 1000,
  fixtureLux: [600, 400],
  bounceLux: 0,
  ev100: 8.6,
});
const predictions = [prediction('flat', 250), prediction('dome', 340)];

describe('what is typed from a meter', () => {
  it('reads figures with a point or a comma, and stops with their f', () => {
    expect(readDisplay('1250', 'lux', exposure)).toEqual({ unit: 'lux', value: 1250 });
    expect(readDisplay(' f/5,6 ', 'fNumber', exposure)).toEqual({
      unit: 'fNumber',
      value: 5.6,
      iso: 100,
      shutterS: 0.02,
    });
    expect(readDisplay('F8', 'fNumber', exposure)?.value).toBe(8);
    expect(readDisplay('8.6', 'ev100', exposure)?.value).toBe(8.6);
    for (const text of ['', ' ', 'eight', '1/2', 'f/', '5..6']) expect(readDisplay(text, 'lux', exposure)).toBeNull();
  });

  it('shows 1000 lx on a flat cell, C = 250, as EV 8.6 and f/2.8 at ISO 100 and 1/50 s', () => {
    // ISO 2720: EV = log2(100 E / C) = log2(400) = 8.644; N^2 = E S t / C = 8.
    expect(showLux(1000, 250, 'lux', exposure)).toBe('1000');
    expect(showLux(1000, 250, 'ev100', exposure)).toBe('8.6');
    expect(showLux(1000, 250, 'fNumber', exposure)).toBe('2.8');
    expect(showLux(0, 250, 'ev100', exposure)).toBe('\u2013');
  });

  it('carries figures over when the meter is set otherwise, and leaves what is no figure', () => {
    const cells = { [cellKey('flat', ALL_LIGHTS)]: '1000', [cellKey('dome', 'fixture:a')]: 'dark', 'gone|all': '5' };
    const inEv = convertCells(cells, predictions, 'lux', 'ev100', exposure);
    expect(inEv).toEqual({ 'flat|all': '8.6', 'dome|fixture:a': 'dark', 'gone|all': '5' });
    expect(Number(convertCells(inEv, predictions, 'ev100', 'lux', exposure)['flat|all'])).toBeCloseTo(970, -1);
  });

  it('becomes readings with the light that was on, and all of them where it stands under all lights', () => {
    const cells = { 'flat|all': '1000', 'dome|fixture:a': '700', 'dome|fixture:b': 'none', 'gone|all': '5' };
    const { keys, readings } = readingsOf(cells, predictions, 'lux', exposure, 0.2);
    expect(keys).toEqual(['flat|all', 'dome|fixture:a']);
    expect(readings[0]).toEqual({ pointId: 'flat', display: { unit: 'lux', value: 1000 }, repeatStops: 0.2 });
    expect(readings[1].litFixtureIds).toEqual(['fixture:a']);
  });
});
