import { describe, expect, it } from 'vitest';
import { finishSchema } from '../../src/materials/finish.ts';
import { FINISH_LIBRARY, findLibraryFinish } from '../../src/materials/library/index.ts';
import { luminousReflectance, luminousReflectanceWithoutGloss } from '../../src/materials/luminousReflectance.ts';

const reflectanceOf = (id: string): number => {
  const entry = findLibraryFinish(id);
  if (!entry) throw new Error(`no finish ${id}`);
  return luminousReflectance(entry.finish);
};

describe('the library of finishes', () => {
  it('holds valid finishes under ids and names of their own', () => {
    expect(new Set(FINISH_LIBRARY.map(({ id }) => id)).size).toBe(FINISH_LIBRARY.length);
    expect(new Set(FINISH_LIBRARY.map(({ name }) => name)).size).toBe(FINISH_LIBRARY.length);
    for (const { finish } of FINISH_LIBRARY) expect(finishSchema.parse(finish)).toEqual(finish);
  });

  it('makes no light: reflectance and transmittance sum to 1 at most in every channel', () => {
    for (const { finish } of FINISH_LIBRARY) {
      if (finish.type !== 'translucent') continue;
      finish.reflectanceRgb.forEach((r, k) => {
        expect(r + finish.transmittanceRgb[k]).toBeLessThanOrEqual(1);
      });
    }
  });

  it('has 16 papers from 3 % to over 80 %, no two alike', () => {
    const papers = FINISH_LIBRARY.filter(({ group }) => group === 'paper').map(({ finish }) =>
      luminousReflectance(finish),
    );
    expect(papers).toHaveLength(16);
    expect(Math.min(...papers)).toBeLessThan(0.035);
    expect(Math.max(...papers)).toBeGreaterThan(0.8);
  });

  // Reflectances for diffuse light printed for indoor lighting: plaster, white tiles, maple, light oak, concrete, dark walnut.
  it.each([
    ['plaster-white', 0.8],
    ['tile-white', 0.7],
    ['maple', 0.6],
    ['oak-light', 0.4],
    ['concrete', 0.3],
    ['walnut', 0.2],
  ])('%s reflects %d of the light, as tabled, to 0.03', (id, tabled) => {
    expect(Math.abs(reflectanceOf(id) - tabled)).toBeLessThan(0.03);
  });
});

describe('luminous reflectance', () => {
  it('of a black base under a coat of 1.49 is the reflection of the coat: 3.9 % at 8 degrees', () => {
    // ((1.49 - 1) / (1.49 + 1))^2 = 0.03872 at 0 degrees; 8 degrees changes the fifth figure.
    const black = finishSchema.parse({ type: 'gloss', reflectanceRgb: [0, 0, 0] });
    expect(luminousReflectance(black)).toBeCloseTo(0.03872, 4);
    expect(luminousReflectanceWithoutGloss(black)).toBe(0);
  });

  it('of a perfect white base under a coat is 1: nothing is lost (furnace)', () => {
    const white = finishSchema.parse({ type: 'gloss', reflectanceRgb: [1, 1, 1] });
    expect(luminousReflectance(white)).toBeCloseTo(1, 12);
  });

  it('of a grey base of 0.5 under 1.5 is 0.316', () => {
    // Inside 0.59635 (tabled mean, index 1.5), outside at 8 degrees 0.04000:
    // 0.04 + 0.96 x 0.40365 x 0.5 / (1 - 0.59635 x 0.5) = 0.04 + 0.19375 / 0.70183 = 0.31607.
    const grey = finishSchema.parse({ type: 'gloss', reflectanceRgb: [0.5, 0.5, 0.5], coatIndex: 1.5 });
    expect(luminousReflectance(grey)).toBeCloseTo(0.31607, 4);
  });

  it('weighs red, green and blue as Rec. 709 does', () => {
    expect(luminousReflectance({ type: 'matte', reflectanceRgb: [1, 0, 0] })).toBeCloseTo(0.2126, 12);
    expect(luminousReflectance({ type: 'matte', reflectanceRgb: [0, 0, 1] })).toBeCloseTo(0.0722, 12);
  });
});
