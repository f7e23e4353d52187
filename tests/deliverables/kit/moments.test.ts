import { describe, expect, it } from 'vitest';
import { ballastKg, counterweightKg, sandbagCount } from '../../../src/deliverables/kit/moments.ts';

describe('counterweightKg', () => {
  // Lever law, W1 d1 = W2 d2.
  it('balances 3 kg at 1.5 m with 7.5 kg at 0.6 m on a pole without weight', () => {
    expect(counterweightKg(3, 1.5, 0.6)).toBeCloseTo(7.5, 12);
  });

  it('needs 9.0 kg when the pole weighs 2 kg, its middle 0.45 m on the load side', () => {
    expect(counterweightKg(3, 1.5, 0.6, 2)).toBeCloseTo(9, 12);
  });

  it('has no moment left about the pivot for any boom', () => {
    for (const [load, out, back, pole] of [
      [4.2, 0.9, 0.6, 2],
      [10, 1.2, 0.5, 4],
      [0.5, 2, 1, 0],
    ]) {
      const counter = counterweightKg(load, out, back, pole);
      expect(load * out + pole * ((out - back) / 2) - counter * back).toBeCloseTo(0, 12);
    }
  });
});

describe('ballastKg', () => {
  it('makes up what a stand lacks against 25 N at 2 m with legs of 0.5 m', () => {
    // Tipping 25 x 2 = 50 N m over an edge at 0.25 m: 50 / (9.80665 x 0.25) = 20.394 kg in all, less 8 kg.
    expect(ballastKg({ massKg: 8, heightM: 2, overhangKg: 0, overhangM: 0 })).toBeCloseTo(12.394, 3);
    expect(sandbagCount({ massKg: 8, heightM: 2, overhangKg: 0, overhangM: 0 })).toBe(2);
  });

  it('adds the moment of what hangs out: 1.5 kg at 0.5 m is 3 kg more over an edge at 0.25 m', () => {
    const upright = ballastKg({ massKg: 8, heightM: 2, overhangKg: 0, overhangM: 0 });
    expect(ballastKg({ massKg: 8, heightM: 2, overhangKg: 1.5, overhangM: 0.5 }) - upright).toBeCloseTo(3, 9);
  });

  it('asks for one bag where a stand holds by itself', () => {
    expect(sandbagCount({ massKg: 100, heightM: 1, overhangKg: 0, overhangM: 0 })).toBe(1);
  });
});
