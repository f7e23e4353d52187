import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitToRec709, GAMUT_SOFT_START, softReach } from '../../src/camera/gamut.ts';
import { LUMINANCE_WEIGHTS_REC709, rec709FromRec2020 } from '../../src/core/color/spaces.ts';
import { dot, type Vec3 } from '../../src/core/vec3.ts';

const unit = fc.double({ min: 0, max: 1, noNaN: true });

describe('fitToRec709', () => {
  it('brings every Rec. 2020 colour inside 0..1 at its own luminance', () => {
    fc.assert(
      fc.property(fc.tuple(unit, unit, unit), (working) => {
        const rgb = rec709FromRec2020(working);
        const fitted = fitToRec709(rgb);
        expect(Math.min(...fitted)).toBeGreaterThanOrEqual(-1e-12);
        expect(Math.max(...fitted)).toBeLessThanOrEqual(1 + 1e-12);
        expect(dot(fitted, LUMINANCE_WEIGHTS_REC709)).toBeCloseTo(dot(rgb, LUMINANCE_WEIGHTS_REC709), 9);
      }),
      { seed: 13 },
    );
  });

  it('leaves colours well inside, greys, black and white exactly alone', () => {
    const alone: readonly Vec3[] = [
      [0.5, 0.4, 0.3],
      [0.18, 0.18, 0.18],
      [0, 0, 0],
      [1, 1, 1],
    ];
    for (const rgb of alone) expect(fitToRec709(rgb)).toEqual(rgb);
  });

  it('draws pure Rec. 2020 green inside, still the greenest it can be, and keeps deeper green apart from paler', () => {
    const deep = fitToRec709(rec709FromRec2020([0, 0.5, 0]));
    const paler = fitToRec709(rec709FromRec2020([0.05, 0.5, 0.05]));
    const saturation = (c: Vec3): number => 1 - Math.min(...c) / Math.max(...c);
    expect(saturation(deep)).toBeGreaterThan(saturation(paler));
    expect(saturation(deep)).toBeGreaterThan(0.95);
    expect(Math.min(...deep)).toBeGreaterThanOrEqual(0);
  });

  it('turns light beyond white white and no light black', () => {
    expect(fitToRec709([1.4, 1.1, 1.2])).toEqual([1, 1, 1]);
    expect(fitToRec709([-0.1, -0.1, 0])).toEqual([0, 0, 0]);
  });

  it('gives way with slope 1 at the start and never passes the edge', () => {
    expect(softReach(GAMUT_SOFT_START)).toBe(GAMUT_SOFT_START);
    expect((softReach(GAMUT_SOFT_START + 1e-6) - GAMUT_SOFT_START) / 1e-6).toBeCloseTo(1, 4);
    expect(softReach(1)).toBeCloseTo(0.95, 12);
    expect(softReach(1e9)).toBeLessThanOrEqual(1);
  });
});
