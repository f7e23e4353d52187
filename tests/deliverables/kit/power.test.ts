import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ampsFromWatts, COMMON_SUPPLIES, continuousWatts, planCircuits } from '../../../src/deliverables/kit/power.ts';

describe('power', () => {
  // P = V I; 80 % continuous: NEC 210.20(A), breaker at least 125 % of a continuous load.
  it('lets circuits of 120 V, 15 and 20 A carry 1440 and 1920 W, of 230 V, 10, 13 and 16 A 1840, 2392 and 2944 W', () => {
    expect(COMMON_SUPPLIES.map(continuousWatts)).toEqual([1440, 1920, 1840, 2392, 2944]);
    for (const { volts, breakerA } of COMMON_SUPPLIES) {
      expect(breakerA).toBeCloseTo(1.25 * (continuousWatts({ volts, breakerA }) / volts), 12);
    }
  });

  it('takes 16.667 A for 1200 W at 120 V and power factor 0.6', () => {
    expect(ampsFromWatts(1200, 120, 0.6)).toBeCloseTo(16.6667, 4);
  });

  it('puts 800, 700, 600 and 500 W on two circuits of 120 V, 15 A at power factor 1', () => {
    const loads = [800, 700, 600, 500].map((watts) => ({ id: String(watts), watts }));
    expect(planCircuits(loads, { volts: 120, breakerA: 15 }, 1).circuits).toEqual([
      ['800', '600'],
      ['700', '500'],
    ]);
  });

  it('names a light that no circuit can carry', () => {
    expect(planCircuits([{ id: 'big', watts: 1500 }], { volts: 120, breakerA: 15 }, 1).tooLarge).toEqual(['big']);
  });

  it('never loads a circuit over 80 % and loses no light', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 1290 }), { maxLength: 20 }), (watts) => {
        const loads = watts.map((w, i) => ({ id: String(i), watts: w }));
        const { circuits, tooLarge } = planCircuits(loads, { volts: 120, breakerA: 15 });
        for (const ids of circuits) {
          const amps = ids.reduce((sum, id) => sum + ampsFromWatts(loads[Number(id)].watts, 120), 0);
          expect(amps).toBeLessThanOrEqual(12 + 1e-6);
        }
        expect([...circuits.flat(), ...tooLarge].sort()).toEqual(loads.map(({ id }) => id).sort());
      }),
      { seed: 5 },
    );
  });
});
