import { describe, expect, it } from 'vitest';
import { radFromDeg } from '../../../src/core/units.ts';
import { fluxFromIntensities } from '../../../src/fixtures/lightData/fluxFromIntensities.ts';
import { parseLm63 } from '../../../src/fixtures/lightData/lm63.ts';
import { lm63Text, range } from '../../fixtures/lightData/sampleTexts.ts';

/**
 * Lumens from candela. Zonal method: IES Lighting Handbook (from memory); closed forms by integration. All figures were
 * computed apart from this code.
 */
const axial = (thetaDeg: readonly number[], candela: readonly number[]) => ({
  thetaRad: thetaDeg.map(radFromDeg),
  phiRad: [0, 2 * Math.PI],
  intensityCd: [candela, candela],
});
const cosine = (deg: number): number => (deg === 90 ? 0 : 100 * Math.cos(radFromDeg(deg)));

describe('lumens by zones', () => {
  it.each([10, 5, 2.5, 1])(
    'of I = 100 cos at %f degree steps are 100 pi by the mean of ends, whatever the step',
    (step) => {
      const theta = range(90, step);
      expect(fluxFromIntensities(axial(theta, theta.map(cosine)), 'meanOfEnds')).toBeCloseTo(100 * Math.PI, 9);
    },
  );

  it('of I = 100 cos tend to 100 pi as the step falls: 0.09 % at 5 degrees, 0.004 % at 1', () => {
    const at = (step: number): number => {
      const theta = range(90, step);
      return fluxFromIntensities(axial(theta, theta.map(cosine))) / (100 * Math.PI) - 1;
    };
    expect(Math.abs(at(5))).toBeLessThan(9e-4);
    expect(Math.abs(at(1))).toBeLessThan(4e-5);
    expect(Math.abs(at(5) / at(1))).toBeGreaterThan(20);
  });

  it('of the table 1000, 970, 880, 740, 560, 370, 200, 90, 25, 0 cd are 1973.6861 by ends and 1962.7131 exactly', () => {
    const table = axial(range(90, 10), [1000, 970, 880, 740, 560, 370, 200, 90, 25, 0]);
    expect(fluxFromIntensities(table, 'meanOfEnds')).toBeCloseTo(1973.6861, 4);
    expect(fluxFromIntensities(table, 'linear')).toBeCloseTo(1962.7131, 4);
  });

  it('of an even sphere of 1 cd are 4 pi by both rules', () => {
    const theta = range(180, 7.5);
    const sphere = axial(
      theta,
      theta.map(() => 1),
    );
    expect(fluxFromIntensities(sphere, 'meanOfEnds')).toBeCloseTo(4 * Math.PI, 12);
    expect(fluxFromIntensities(sphere, 'linear')).toBeCloseTo(4 * Math.PI, 12);
  });

  it.each([
    [10, 181.8062, 343.7074],
    [20, 45.2776, 1357.716],
    [60, 4.81884, 10798.0],
  ])(
    'of a spot I0 cos^m, beam %f degrees, m %f, I0 10 000 cd: %f lm, from a file at 0.25 degree steps',
    (_, m, lumens) => {
      // Phi = 2 pi I0 / (m + 1).
      const theta = range(90, 0.25);
      const candela = theta.map((deg) => 10000 * (deg === 90 ? 0 : Math.cos(radFromDeg(deg)) ** m));
      const file = parseLm63(lm63Text({ vertical: theta, horizontal: [0], candela: [candela] }));
      if (!file.ok) throw new Error(file.error.message);
      expect(Math.abs(file.value.lumens / lumens - 1)).toBeLessThan(3e-4);
    },
  );

  it('of I = 100 (1 + cos 2 phi) cos theta are 100 pi: the lobes cancel over the turn', () => {
    const theta = range(90, 2.5);
    const phi = range(360, 7.5);
    const planes = phi.map((p) => theta.map((t) => (1 + Math.cos(2 * radFromDeg(p))) * cosine(t)));
    const table = { thetaRad: theta.map(radFromDeg), phiRad: phi.map(radFromDeg), intensityCd: planes };
    expect(fluxFromIntensities(table, 'meanOfEnds')).toBeCloseTo(100 * Math.PI, 9);
  });

  it('need no even steps: a fine centre and a coarse rim give 100 pi by the mean of ends', () => {
    const theta = [0, 0.5, 1, 2, 3, 5, 8, 13, 21, 34, 55, 72, 90];
    expect(fluxFromIntensities(axial(theta, theta.map(cosine)), 'meanOfEnds')).toBeCloseTo(100 * Math.PI, 9);
  });
});
