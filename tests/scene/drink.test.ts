import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { radFromDeg } from '../../src/core/units.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { drinkFigures, drinkVolumeMl } from '../../src/scene/drinkVolume.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { fillGlassBody } from '../../src/scene/glassware/drinkBody.ts';
import { defaultDrink, defaultGlassProfile, GLASS_SHAPES } from '../../src/scene/pieceDefaults.ts';
import { directionAlong, pointAlong, radiusAtHeightM } from '../../src/scene/profile/index.ts';
import type { GlassProfile } from '../../src/scene/records.ts';
import { crossingsAlong, enclosedVolumeM3, mediaAlong, randomChord, trianglesOf } from './meshTools.ts';
import { glassOf, randomProfile, sceneOf } from './sceneTools.ts';

const bodyOf = (profile: GlassProfile) => {
  const result = buildGlassBody('glass', profile);
  if (!result.ok) throw new Error(result.error.map((d) => d.message).join(' '));
  return result.value;
};
const GLASS = 'glass:glass';
const DRINK = 'glass:drink';

describe.each(GLASS_SHAPES)('a drink in a %s', (shape) => {
  const profile = defaultGlassProfile(shape);
  const drink = { ...defaultDrink(), fillFraction: 0.6 };
  const piece = glassOf(profile, { drink });
  const whole = buildSet(sceneOf([piece]));
  // A mug's handle is a body of its own, beside all this.
  const set = { ...whole, surfaces: whole.surfaces.filter((s) => s.role !== 'handle') };

  it('is met through air, glass, drink, glass, air: four surfaces along a level line', () => {
    const body = bodyOf(profile);
    const levelYM = body.floorYM + 0.6 * (body.rimYM - body.floorYM);
    const y = 0.0002 + body.floorYM + 0.5 * (levelYM - body.floorYM);
    const crossings = crossingsAlong(trianglesOf(set.surfaces), [-1, y, 0.0011], [1, 0, 0]);
    expect(crossings).toHaveLength(4);
    expect(mediaAlong(set.surfaces, crossings)).toEqual(['air', GLASS, DRINK, GLASS, 'air']);
    expect(crossings.map((c) => set.surfaces[c.surface].role)).toEqual([
      'outer wall',
      'inner wall',
      'inner wall',
      'outer wall',
    ]);
  });

  it('is met from above through air, drink, glass: no gap of air between drink and glass', () => {
    const crossings = crossingsAlong(trianglesOf(set.surfaces), [0.0013, 1, 0.0017], [0, -1, 0]);
    expect(mediaAlong(set.surfaces, crossings)).toEqual(['air', DRINK, GLASS, 'air']);
  });

  it('agrees with itself along 200 random rays', () => {
    const random = createRandom(21);
    const triangles = trianglesOf(set.surfaces, { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 48 });
    let wet = 0;
    for (let i = 0; i < 200; i++) {
      const { origin, direction } = randomChord(random, [0, profile.heightM / 2, 0], profile.heightM);
      const media = mediaAlong(set.surfaces, crossingsAlong(triangles, origin, direction));
      expect(media.at(-1)).toBe('air');
      if (media.includes(DRINK)) wet++;
    }
    expect(wet).toBeGreaterThan(8);
  });

  it('has the volume of its own triangles within 0.5 %', () => {
    const own = set.surfaces
      .filter((s) => s.frontVolume === DRINK || s.backVolume === DRINK)
      .map((s) => trianglesOf([s]).map((t) => (s.frontVolume === DRINK ? { ...t, b: t.c, c: t.b } : t)));
    const meshMl = enclosedVolumeM3(own.flat()) * 1e6;
    expect(drinkVolumeMl(piece) / meshMl).toBeGreaterThan(0.995);
    expect(drinkVolumeMl(piece) / meshMl).toBeLessThan(1.005);
  });

  it('climbs the wall: the meniscus meets the wall at 15 degrees, is tangent to the level, and stays inside the glass', () => {
    const body = bodyOf(profile);
    const filled = fillGlassBody('glass', body, drink);
    expect(filled.diagnostics).toEqual([]);
    const [meniscus, top] = filled.top.map((p) => p.piece);
    const wall = filled.wet[0].piece;
    const down = directionAlong(wall, 0);
    const start = directionAlong(meniscus, 0);
    expect(start.rM * down.rM + start.yM * down.yM).toBeCloseTo(Math.cos(radFromDeg(15)), 6);
    expect(directionAlong(meniscus, 1).rM).toBeCloseTo(-1, 9);
    expect(top.from).toBe(meniscus.to);
    expect(filled.contact).toBe(wall.from);
    const inside = body.inside.map((p) => p.piece);
    for (let i = 1; i < 50; i++) {
      const p = pointAlong(meniscus, i / 50);
      expect(p.rM).toBeLessThan((radiusAtHeightM(inside, p.yM) ?? 0) + 1e-9);
    }
    // The rise follows h^2 = 2 l^2 (1 - sin(lean + 15 degrees)), 1.5 mm on an upright wall.
    const reach = Math.asin(-down.rM) + radFromDeg(15);
    const share = Math.sqrt((1 - Math.sin(reach)) / (1 - Math.sin(radFromDeg(15))));
    expect(filled.contact.yM - filled.levelYM).toBeCloseTo(0.0015 * share, 7);
  });
});

describe('the level of a drink', () => {
  it('stands at its share of the inside height: 0.75 of 130 mm over a 10 mm floor is 107.5 mm', () => {
    const profile = defaultGlassProfile('highball');
    const filled = fillGlassBody('glass', bodyOf(profile), { ...defaultDrink(), fillFraction: 0.75 });
    expect(filled.levelYM).toBeCloseTo(0.01 + 0.75 * 0.13, 9);
  });

  it('is a plain disc without a meniscus: pi 36^2 x 45 mm^3 of drink in a straight glass half full', () => {
    const profile: GlassProfile = {
      shape: 'highball',
      heightM: 0.1,
      rimDiameterM: 0.08,
      baseDiameterM: 0.08,
      wallM: 0.004,
      baseThicknessM: 0.01,
      footRadiusM: 0,
      floorFilletM: 0,
      rim: 'flat',
    };
    const piece = glassOf(profile, { drink: { ...defaultDrink(), fillFraction: 0.5, meniscusM: 0 } });
    expect(drinkVolumeMl(piece)).toBeCloseTo(Math.PI * 3.6 ** 2 * 4.5, 9);
    expect(drinkFigures(piece)?.capacityMl).toBeCloseTo(Math.PI * 3.6 ** 2 * 9, 9);
    // A meniscus of 2 mm adds the ring between its arc and the wall. Summed in 20 000 level rings from the arc's own
    // equation: radius rise / (1 - sin 15), centre one radius over the level and cos 15 of it in from the wall.
    const round = glassOf(profile, { drink: { ...defaultDrink(), fillFraction: 0.5, meniscusM: 0.002 } });
    const arc = 0.2 / (1 - Math.sin(radFromDeg(15)));
    const centre = 3.6 - arc * Math.cos(radFromDeg(15));
    let ringMl = 0;
    const n = 20000;
    for (let i = 0; i < n; i++) {
      const h = (0.2 * (i + 0.5)) / n;
      ringMl += ((Math.PI * 0.2) / n) * (3.6 ** 2 - (centre + Math.sqrt(arc ** 2 - (arc - h) ** 2)) ** 2);
    }
    expect(drinkVolumeMl(round) - drinkVolumeMl(piece)).toBeCloseTo(ringMl, 5);
  });

  it('is kept under the rim when asked to overflow, and says so', () => {
    const profile = defaultGlassProfile('tumbler');
    const body = bodyOf(profile);
    const filled = fillGlassBody('glass', body, { ...defaultDrink(), fillFraction: 1 });
    expect(filled.diagnostics.map((d) => d.code)).toEqual(['drink-over-rim']);
    expect(filled.diagnostics[0].field).toBe('drink.fillFraction');
    expect(filled.contact.yM).toBeLessThan(body.rimYM - 0.0005);
    expect(filled.levelYM).toBeGreaterThan(body.rimYM - 0.006);
  });
});

describe('any drink in any glass', () => {
  it('keeps its media in order over 208 seeded sizes and levels', () => {
    let made = 0;
    GLASS_SHAPES.forEach((shape, k) => {
      for (let seed = 0; seed < 16; seed++) {
        const random = createRandom(seed * 7 + k);
        const profile = randomProfile(shape, seed, 0.3);
        const drink = { ...defaultDrink(), fillFraction: 0.01 + 0.99 * random(), meniscusM: 0.004 * random() };
        const { surfaces, diagnostics } = buildSet(sceneOf([glassOf(profile, { drink })]));
        if (surfaces.length === 0) {
          expect(diagnostics.some((d) => d.severity === 'error')).toBe(true);
          continue;
        }
        made++;
        // Steps of 3.75 degrees: chords of wall and meniscus, 15 degrees apart, don't cross.
        const triangles = trianglesOf(surfaces, { turnStepRad: Math.PI / 12, arcStepRad: Math.PI / 48 });
        for (let i = 0; i < 8; i++) {
          const { origin, direction } = randomChord(random, [0, profile.heightM / 2, 0], profile.heightM);
          expect(mediaAlong(surfaces, crossingsAlong(triangles, origin, direction)).at(-1)).toBe('air');
        }
        const down = crossingsAlong(triangles, [0.0007, 1, 0.0009], [0, -1, 0]);
        expect(mediaAlong(surfaces, down)).toContain(DRINK);
      }
    });
    expect(made).toBeGreaterThan(120);
  });
});
