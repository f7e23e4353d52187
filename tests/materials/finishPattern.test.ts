import { describe, expect, it } from 'vitest';
import { type Finish, finishSchema } from '../../src/materials/finish.ts';
import { DUST_RGB, finishPattern, meanReflectanceRgb, scratchedShare } from '../../src/materials/finishPattern.ts';
import { meanPatternMix, patternSchema } from '../../src/materials/pattern.ts';
import { PATTERN_PARAMETERS } from '../../src/materials/patterns/patternMixAt.ts';

const GLOSS = { type: 'gloss', reflectanceRgb: [0.01, 0.01, 0.01], coatIndex: 1.49, roughness: 0 } as const;
const tiles = patternSchema.parse({ type: 'tiles', secondRgb: [0.2, 0.3, 0.4] });

describe('patterns of a finish', () => {
  it('are none for records written before there were any, which still read the same', () => {
    const old: Finish[] = [
      { type: 'matte', reflectanceRgb: [0.5, 0.5, 0.5] },
      { ...GLOSS, reflectanceRgb: [0.01, 0.01, 0.01] },
      { type: 'metal', reflectanceRgb: [0.9, 0.9, 0.9], roughness: 0.1 },
      { type: 'mirror', reflectanceRgb: [0.9, 0.9, 0.9] },
      { type: 'translucent', reflectanceRgb: [0.4, 0.4, 0.4], transmittanceRgb: [0.5, 0.5, 0.5] },
      { type: 'clear', roughness: 0 },
      { type: 'black' },
    ];
    for (const finish of old) {
      expect(finishSchema.parse(finish)).toEqual(finish);
      expect(finishPattern(finish)).toEqual({ base: null, dust: null, scratches: null });
    }
  });

  it('are eight finite numbers each', () => {
    const finish = finishSchema.parse({ ...GLOSS, pattern: tiles, dust: 0.05, scratches: 0.5 });
    const { base, dust, scratches } = finishPattern(finish);
    for (const numbers of [base, dust, scratches]) {
      expect(numbers?.params).toHaveLength(PATTERN_PARAMETERS);
      expect(numbers?.params.every(Number.isFinite)).toBe(true);
    }
    expect(base?.secondRgb).toEqual([0.2, 0.3, 0.4]);
    expect(dust?.secondRgb).toEqual(DUST_RGB);
  });

  it('leave out dust and scratches of 0', () => {
    expect(finishPattern(finishSchema.parse({ ...GLOSS, dust: 0, scratches: 0 }))).toEqual({
      base: null,
      dust: null,
      scratches: null,
    });
  });
});

describe('mean reflectance', () => {
  it('is the reflectance itself without a pattern', () => {
    expect(meanReflectanceRgb({ type: 'matte', reflectanceRgb: [0.1, 0.2, 0.3] })).toEqual([0.1, 0.2, 0.3]);
    expect(meanReflectanceRgb({ type: 'black' })).toEqual([0, 0, 0]);
  });

  it('of 100 mm tiles with 3 mm joints goes 1 - 0.97^2 = 5.91 % of the way to the joint, and 3 % of what is left for tone', () => {
    const mean = meanReflectanceRgb({ type: 'matte', reflectanceRgb: [1, 1, 1], pattern: tiles });
    // Tones are even in 0..0.6 x 0.1 = 0.06: mean 0.03. Mix = 0.0591 + 0.9409 x 0.03 = 0.0873; blue 1 - 0.6 x 0.0873.
    expect(mean[2]).toBeCloseTo(1 - 0.6 * 0.0873, 2);
    expect(meanPatternMix(tiles)).toBeCloseTo(0.0873, 2);
  });

  it('of gloss black under 10 % of dust is a tenth of the dust and nine tenths of the black', () => {
    const mean = meanReflectanceRgb(finishSchema.parse({ ...GLOSS, dust: 0.1 }));
    expect(mean[0]).toBeCloseTo(0.9 * 0.01 + 0.1 * DUST_RGB[0], 12);
  });
});

describe('wear of a gloss surface', () => {
  it('covers area in proportion to the slider, 1.2 % at the end of it', () => {
    // Discs of mean squared radius 0.14 cells, 60 um thick, in cells of 24 mm, 24/2.7 and 24/6.9 mm:
    // pi x 0.14 x 60e-6 / 0.024 x (1 + 2.7 + 6.9) = 0.0117.
    expect(scratchedShare(1)).toBeCloseTo(0.0117, 3);
    expect(scratchedShare(0.25) / scratchedShare(1)).toBeCloseTo(0.25, 2);
  });
});
