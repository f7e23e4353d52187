import { describe, expect, it } from 'vitest';
import { causticSet, readCaustic } from './causticScene.ts';

/*
 * Reference: plain path tracing of the same scene, run long, which is unbiased and finds a caustic by chance alone. The photon
 * pass must bring the same light to the table, within 2 % plus three standard errors of the two.
 */
describe('caustics through a drink, photons against brute force', () => {
  for (const [lamp, samples] of [
    ['panel', 768],
    ['bulb', 4096],
  ] as const)
    it(`bring the same flux to the table from a ${lamp === 'panel' ? '200 mm panel' : '20 mm bulb'}`, () => {
      const brute = readCaustic(causticSet(lamp), samples, 0);
      const photon = readCaustic(causticSet(lamp), 96, 20_000, 11);
      for (let c = 0; c < 3; c++) {
        const scale = brute.mean[c] / brute.mean[1];
        const slack = 3 * scale * Math.hypot(brute.standardError, photon.standardError);
        expect(Math.abs(photon.mean[c] - brute.mean[c])).toBeLessThan(0.02 * brute.mean[c] + slack);
      }
    });

  it('cost far less for the same certainty: at 64 samples the bulb is over ten times surer than by chance', () => {
    const chance = readCaustic(causticSet('bulb'), 64, 0);
    const photon = readCaustic(causticSet('bulb'), 64, 20_000);
    expect(photon.standardError * 10).toBeLessThan(chance.standardError);
  });

  it('does not change with the number of photons, only its noise: 4 000 and 40 000 agree within 1 %', () => {
    const few = readCaustic(causticSet('bulb'), 128, 4_000);
    const many = readCaustic(causticSet('bulb'), 128, 40_000);
    for (let c = 0; c < 3; c++)
      expect(Math.abs(few.mean[c] / many.mean[c] - 1)).toBeLessThan(0.01 + (3 * few.standardError) / few.mean[1]);
  });
});
