import { describe, expect, it } from 'vitest';
import { counterweightKg, momentNm } from '../../../src/analysis/rigging/boom.ts';
import { currentA, lastingPowerW, layOnCircuits } from '../../../src/analysis/rigging/circuits.ts';

/* P = V I x power factor; 80 % for lasting loads: NEC 210.20(A), rating at least 1.25 times a continuous load. W1 d1 = W2 d2. */

describe('circuits', () => {
  it.each([
    [120, 15, 1440],
    [120, 20, 1920],
    [230, 10, 1840],
    [230, 13, 2392],
    [230, 16, 2944],
  ])('%f V and %f A carry %f W for hours', (v, a, w) => {
    expect(lastingPowerW(v, a)).toBeCloseTo(w, 9);
    expect(lastingPowerW(v, a) * 1.25).toBeCloseTo(v * a, 9);
  });

  it('1200 W at a power factor of .6 on 120 V draw 16.667 A', () => {
    expect(currentA(1200, 120, 0.6)).toBeCloseTo(16.667, 3);
    expect(currentA(2300, 230)).toBe(10);
  });

  it('lays 5, 4, 3 and 2 A on two circuits of 10 A held to 80 %: 5 + 3 and 4 + 2', () => {
    const loads = [3, 5, 2, 4].map((a) => ({ id: `${a}`, powerW: 230 * a, currentA: a }));
    const circuits = layOnCircuits(loads, 10, 0.8);
    expect(circuits.map(({ loads: own }) => own.map(({ id }) => id))).toEqual([
      ['5', '3'],
      ['4', '2'],
    ]);
    expect(circuits.map((circuit) => circuit.currentA)).toEqual([8, 6]);
  });
});

describe('booms', () => {
  it('3 kg at 1.5 m need 7.5 kg at .6 m, and 9 kg with a boom of 2 kg whose middle lies .45 m on the side of the load', () => {
    expect(counterweightKg(3, 1.5, 0)).toBeCloseTo(7.5, 9);
    expect(counterweightKg(3, 1.5, 2)).toBeCloseTo(9, 9);
  });

  it('a boom that is longer behind than before helps: 3 kg at .3 m need 1 kg at .6 m less half of 2 kg x .3 m / .6 m', () => {
    expect(counterweightKg(3, 0.3, 2)).toBeCloseTo(1.5 - 0.5, 9);
  });

  it('2 kg at 1 m turn a stand with 19.6133 N m (standard gravity, 9.80665 m/s2)', () => {
    expect(momentNm(2, 1)).toBeCloseTo(19.6133, 9);
  });
});
