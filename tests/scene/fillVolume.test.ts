import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { albedoOfReflectance, foamMedium } from '../../src/scene/drink/foam.ts';
import { layerDrink } from '../../src/scene/drink/layers.ts';
import { drinkFigures } from '../../src/scene/drinkVolume.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { fillGlassBody } from '../../src/scene/glassware/drinkBody.ts';
import { defaultDrink, defaultFoam, defaultGlassProfile, defaultIceOf } from '../../src/scene/pieceDefaults.ts';
import { type Drink, drinkSchema, type GlassProfile, ICE_FORMS } from '../../src/scene/records.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const bodyOf = (profile: GlassProfile) => {
  const result = buildGlassBody('glass', profile);
  if (!result.ok) throw new Error(result.error.map((d) => d.message).join(' '));
  return result.value;
};

/** Level over the floor of so many millilitres without a meniscus. */
const levelM = (profile: GlassProfile, fillMl: number): number => {
  const body = bodyOf(profile);
  const drink: Drink = { ...defaultDrink(), fillFraction: undefined, fillMl, meniscusM: 0 };
  const filled = fillGlassBody('glass', body, drink);
  expect(filled.diagnostics).toEqual([]);
  return filled.levelYM - body.floorYM;
};

/** Sharp-cornered vessels drawn in millimetres, so that their insides are whole cylinders, cones and balls. */
const CYLINDER: GlassProfile = {
  shape: 'ownProfile',
  heightM: 0.12,
  points: [
    { r: 0, y: 0 },
    { r: 40, y: 0 },
    { r: 40, y: 120 },
    { r: 36, y: 120 },
    { r: 36, y: 10 },
    { r: 0, y: 10 },
  ],
};
// Inside from the point at height 10 out to 50 at height 110: r = h / 2.
const CONE: GlassProfile = {
  shape: 'ownProfile',
  heightM: 0.11,
  points: [
    { r: 0, y: 0 },
    { r: 10, y: 0 },
    { r: 56, y: 110 },
    { r: 50, y: 110 },
    { r: 0, y: 10 },
  ],
};
// Inside a hemisphere of 40 about (0, 50): a quarter circle from (40, 50) to (0, 10), bulge -tan(90/4 degrees).
const BALL: GlassProfile = {
  shape: 'ownProfile',
  heightM: 0.05,
  points: [
    { r: 0, y: 0 },
    { r: 46, y: 0 },
    { r: 46, y: 50 },
    { r: 40, y: 50, bulge: -Math.tan(Math.PI / 8) },
    { r: 0, y: 10 },
  ],
};

describe('the level of a drink poured by volume', () => {
  it.each([20, 100, 300])('is V / (pi r^2) in a cylinder: %i ml', (ml) => {
    expect(levelM(CYLINDER, ml) / ((ml * 1e-6) / (Math.PI * 0.036 ** 2))).toBeCloseTo(1, 6);
  });

  it.each([20, 100, 180])('is the cube root of 3 V / (pi tan^2) in a cone: %i ml', (ml) => {
    // V = pi (h/2)^2 h / 3.
    expect(levelM(CONE, ml) / Math.cbrt((12 * ml * 1e-6) / Math.PI)).toBeCloseTo(1, 6);
  });

  it.each([5, 40, 100])('makes a ball cap of V = pi h^2 (3 R - h) / 3 in a hemisphere: %i ml', (ml) => {
    const h = levelM(BALL, ml);
    expect((Math.PI * h * h * (3 * 0.04 - h)) / 3 / (ml * 1e-6)).toBeCloseTo(1, 6);
  });

  it('stands as high in a conical stemmed glass as a cone less its rounded point allows, within 0.5 %', () => {
    const profile = defaultGlassProfile('conicalStemmed');
    const body = bodyOf(profile);
    const top = body.inside[0].piece;
    // The wall's line carried down to the axis, and the volume between it and the rounding counted in 200 000 level discs.
    const slope = (top.from.rM - top.to.rM) / (top.from.yM - top.to.yM);
    const tipYM = top.from.yM - top.from.rM / slope;
    const level = body.floorYM + 0.05;
    const cone = (Math.PI * slope ** 2 * (level - tipYM) ** 3) / 3;
    const round = body.inside[1].piece;
    if (round.type !== 'arc') throw new Error('the point is rounded by an arc');
    let missing = (Math.PI * slope ** 2 * (round.from.yM - tipYM) ** 3) / 3;
    const n = 200_000;
    for (let i = 0; i < n; i++) {
      const y = body.floorYM + ((round.from.yM - body.floorYM) * (i + 0.5)) / n;
      const r = Math.sqrt(Math.max(0, round.radiusM ** 2 - (y - round.centre.yM) ** 2));
      missing -= (Math.PI * r * r * (round.from.yM - body.floorYM)) / n;
    }
    const ml = (cone - missing) * 1e6;
    expect(levelM(profile, ml) / 0.05).toBeGreaterThan(0.995);
    expect(levelM(profile, ml) / 0.05).toBeLessThan(1.005);
  });

  it('leaves the volume that was asked for, with meniscus and ice of every form, within 0.5 %', () => {
    for (const form of ICE_FORMS) {
      const drink: Drink = { ...defaultDrink(), fillFraction: undefined, fillMl: 150 };
      const ice = { ...defaultIceOf(form), ...(form === 'sphere' ? { edgeM: 0.04 } : {}) };
      const figures = drinkFigures(glassOf(defaultGlassProfile('doubleTumbler'), { drink, ice }));
      expect(figures?.drinkMl).toBeGreaterThan(150 * 0.995);
      expect(figures?.drinkMl).toBeLessThan(150 * 1.005);
    }
  });

  it('is kept at the brim when it is too much, and says how many millilitres fit', () => {
    const drink: Drink = { ...defaultDrink(), fillFraction: undefined, fillMl: 900 };
    const set = buildSet(sceneOf([glassOf(defaultGlassProfile('highball'), { drink })]));
    const warning = set.diagnostics.find((d) => d.code === 'drink-over-rim');
    expect(warning?.field).toBe('drink.fillMl');
    const most = Number(/Lower it to (\d+) ml/.exec(warning?.message ?? '')?.[1]);
    const full = drinkFigures(glassOf(defaultGlassProfile('highball'), { drink }));
    expect(most).toBe(Math.floor(full?.drinkMl ?? 0));
  });

  it('is given in one way only: fillFraction or fillMl', () => {
    const { fillFraction: _, ...bare } = defaultDrink();
    expect(drinkSchema.safeParse(bare).success).toBe(false);
    expect(drinkSchema.safeParse({ ...bare, fillMl: 100 }).success).toBe(true);
    expect(drinkSchema.safeParse({ ...bare, fillMl: 100, fillFraction: 0.5 }).success).toBe(false);
  });
});

describe('layers', () => {
  it('part a cylinder of 300 ml into 150, 90 and 60 ml: discs at 50 and 80 % of the level', () => {
    const body = bodyOf(CYLINDER);
    const drink: Drink = { ...defaultDrink(), fillFraction: undefined, fillMl: 300, meniscusM: 0 };
    const filled = fillGlassBody('glass', body, drink);
    const layer = { name: 'Layer', index: 1.34, absorptionPerM: [1, 1, 1] as [number, number, number] };
    const layered = layerDrink('glass', body, filled, [
      { ...layer, share: 0.3 },
      { ...layer, share: 0.2 },
    ]);
    const depth = filled.levelYM - body.floorYM;
    expect(layered.interfaces.map((p) => (p.from.yM - body.floorYM) / depth)).toEqual([
      expect.closeTo(0.5, 6),
      expect.closeTo(0.8, 6),
    ]);
    expect(layered.interfaces.map((p) => p.from.rM)).toEqual([expect.closeTo(0.036, 12), expect.closeTo(0.036, 12)]);
    expect(layered.bands).toHaveLength(3);
  });

  it('that take more than there is are left out with a word', () => {
    const layer = { name: 'Layer', index: 1.34, absorptionPerM: [1, 1, 1] as [number, number, number], share: 0.6 };
    const drink: Drink = { ...defaultDrink(), layers: [layer, layer] };
    const set = buildSet(sceneOf([glassOf(CYLINDER, { drink })]));
    expect(set.diagnostics.map((d) => d.code)).toContain('layers-over-full');
    expect(set.surfaces.some((s) => s.role === 'liquid layer')).toBe(false);
  });
});

describe('a head of foam', () => {
  it('stands its height over the drink at the wall, and is kept under the rim', () => {
    const drink: Drink = { ...defaultDrink(), fillFraction: 0.7, meniscusM: 0, foam: { ...defaultFoam(), domeM: 0 } };
    const top = (d: Drink) => {
      const set = buildSet(sceneOf([glassOf(CYLINDER, { drink: d })]));
      const disc = set.surfaces.find((s) => s.role === 'foam top');
      if (disc?.shape.type !== 'revolvedLine') throw new Error('a level top');
      return { yM: disc.shape.y0M, codes: set.diagnostics.map((x) => x.code) };
    };
    // Floor at 10 mm, 0.7 of 110 mm of inside, 22 mm of foam.
    expect(top(drink).yM).toBeCloseTo(0.01 + 0.7 * 0.11 + 0.022, 9);
    const over = top({ ...drink, fillFraction: 0.9 });
    expect(over.yM).toBeCloseTo(0.12 - 0.0005, 9);
    expect(over.codes).toContain('foam-over-rim');
  });

  // Diffuse light on a deep half space of even scattering: 60 000 walks that start in a cosine-weighted direction.
  it.each([0.99, 0.9, 0.6])(
    'gives back the share of diffuse light that its albedo %f stands for, within 0.015',
    (albedo) => {
      const random = createRandom(17);
      let back = 0;
      const walks = 60_000;
      for (let i = 0; i < walks; i++) {
        let depth = 0;
        let cos = Math.sqrt(random());
        let weight = 1;
        for (let k = 0; k < 4000 && weight > 1e-4; k++) {
          depth += -Math.log(1 - random()) * cos;
          if (depth < 0) {
            back += weight;
            break;
          }
          weight *= albedo;
          cos = 2 * random() - 1;
        }
      }
      const reflectance = back / walks;
      const found = albedoOfReflectance(reflectance);
      const s = Math.sqrt(1 - albedo);
      const formula = ((1 - s) * (1 - 0.139 * s)) / (1 + 1.17 * s);
      expect(Math.abs(formula - reflectance)).toBeLessThan(0.015);
      expect(Math.abs(Math.sqrt(1 - found) - s)).toBeLessThan(0.015);
    },
  );

  it('absorbs more where its tint is darker', () => {
    const { absorptionPerM, scatteringPerM } = foamMedium(defaultFoam());
    expect(absorptionPerM[0]).toBeLessThan(absorptionPerM[1]);
    expect(absorptionPerM[1]).toBeLessThan(absorptionPerM[2]);
    expect(scatteringPerM).toEqual([1500, 1500, 1500]);
  });
});
