import { describe, expect, it } from 'vitest';
import { applyToPoint, inversePoint } from '../../src/core/rigid.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import type { OpticalSurface } from '../../src/materials/surface.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { layBubbles } from '../../src/scene/drink/bubbles.ts';
import { fillVessel } from '../../src/scene/drink/fillVessel.ts';
import { MOST_DROPS } from '../../src/scene/garnish/condensation.ts';
import { standingOfGarnish } from '../../src/scene/garnish/standing.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { piecesOf } from '../../src/scene/glassware/glassBody.ts';
import {
  defaultBubbles,
  defaultCondensation,
  defaultDrink,
  defaultFoam,
  defaultGarnish,
  defaultGlassProfile,
  defaultIceOf,
  defaultRimCrust,
  GARNISH_KINDS,
  GLASS_SHAPES,
} from '../../src/scene/pieceDefaults.ts';
import { distanceToProfileM, radiusAtHeightM } from '../../src/scene/profile/index.ts';
import { type Garnish, ICE_FORMS } from '../../src/scene/records.ts';
import { glassGroupOfRole, isFineDetail } from '../../src/scene/roles.ts';
import { trianglesOf } from './meshTools.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const bodyOf = (shape: (typeof GLASS_SHAPES)[number]) => {
  const result = buildGlassBody('glass', defaultGlassProfile(shape));
  if (!result.ok) throw new Error('generic sizes make a glass');
  return result.value;
};
const COARSE = { turnStepRad: Math.PI / 6, arcStepRad: Math.PI / 6 };
/** Corners of the triangles of some surfaces, in the frame of the glass. */
const cornersOf = (surfaces: readonly OpticalSurface[]): Vec3[] =>
  trianglesOf(surfaces, COARSE)
    .flatMap((t) => [t.a, t.b, t.c])
    .map((p): Vec3 => [p[0], p[1] - 0.0002, p[2]]);

/** Signed room between a point and the glass: positive in the hollow or well outside, negative in the glass itself. */
function roomToGlassM(shape: (typeof GLASS_SHAPES)[number], p: Vec3): number {
  const body = bodyOf(shape);
  const inside = piecesOf(body.inside);
  const outside = piecesOf(body.outside);
  const rM = Math.hypot(p[0], p[2]);
  const d = distanceToProfileM([...inside, ...outside], { rM, yM: p[1] });
  if (p[1] >= body.rimYM || p[1] <= 0) return d;
  const outer = radiusAtHeightM(outside, p[1]) ?? 0;
  if (rM >= outer) return d;
  const inner = p[1] > body.floorYM ? (radiusAtHeightM(inside, Math.min(p[1], inside[0].from.yM)) ?? 0) : 0;
  return rM < inner ? d : -d;
}

describe('straws, stirrers, picks and sprigs', () => {
  const things: Garnish[] = [
    defaultGarnish('straw'),
    { ...defaultGarnish('stirrer'), azimuthDeg: 250 },
    defaultGarnish('olives'),
  ];
  it.each(GLASS_SHAPES)('stand in a %s without entering its glass, or say that they do not fit', (shape) => {
    for (const garnish of things) {
      const set = buildSet(sceneOf([glassOf(defaultGlassProfile(shape), { garnish: [garnish] })]));
      const own = set.surfaces.filter((s) => s.role.startsWith('garnish 1: '));
      if (own.length === 0) {
        expect(set.diagnostics.map((d) => d.code)).toContain('garnish-does-not-fit');
        continue;
      }
      const least = Math.min(...cornersOf(own).map((p) => roomToGlassM(shape, p)));
      // The search walks in steps: a hundredth of a millimetre may be missing between them.
      expect(least).toBeGreaterThan(0.0001);
    }
  });

  it('lean on the rim at their azimuth: 90 degrees is toward the camera', () => {
    const set = buildSet(
      sceneOf([
        glassOf(defaultGlassProfile('highball'), { garnish: [{ ...defaultGarnish('straw'), azimuthDeg: 90 }] }),
      ]),
    );
    const top = cornersOf(set.surfaces.filter((s) => s.role.startsWith('garnish'))).sort((a, b) => b[1] - a[1])[0];
    expect(top[2]).toBeGreaterThan(0.03);
    expect(Math.abs(top[0])).toBeLessThan(0.006);
  });

  it('are what ice of every form keeps off: no corner of ice within a straw or an olive', () => {
    const garnish = [
      { ...defaultGarnish('straw'), diameterM: 0.009 },
      { ...defaultGarnish('olives'), azimuthDeg: 180 },
    ];
    for (const form of ICE_FORMS) {
      const body = bodyOf('doubleTumbler');
      const standing = standingOfGarnish(body, garnish);
      const { ice } = fillVessel('glass', body, { drink: defaultDrink(), ice: defaultIceOf(form) }, standing);
      for (const piece of ice) {
        for (let i = 0; i < piece.body.samples.length; i += 12) {
          const s = piece.body.samples;
          const p = applyToPoint(piece.placement, [s[i], s[i + 1], s[i + 2]]);
          for (const { box, placement } of standing) {
            const q = inversePoint(placement, p).map((v, k) => Math.max(0, Math.abs(v) - box.coreHalfM[k]));
            expect(Math.hypot(...q)).toBeGreaterThan(box.bevelM);
          }
        }
      }
    }
  });
});

describe('fruit on the rim', () => {
  it('a wheel is slit: none of it comes within the wall, and its core sits on the rim', () => {
    for (const shape of ['highball', 'tumbler', 'doubleTumbler', 'shot'] as const) {
      const garnish = [{ ...defaultGarnish('citrusWheel'), diameterM: shape === 'shot' ? 0.035 : 0.055 }] as Garnish[];
      const set = buildSet(sceneOf([glassOf(defaultGlassProfile(shape), { garnish })]));
      const corners = cornersOf(set.surfaces.filter((s) => s.role.startsWith('garnish 1: ')));
      expect(Math.min(...corners.map((p) => roomToGlassM(shape, p)))).toBeGreaterThan(-1e-6);
      const { heightM } = defaultGlassProfile(shape);
      const ys = corners.map((p) => p[1]);
      expect((Math.min(...ys) + Math.max(...ys)) / 2 - heightM).toBeLessThan(0.006);
    }
  });

  it('every kind is smooth or flat but never empty, and has at most 250 surfaces', () => {
    for (const kind of GARNISH_KINDS) {
      const set = buildSet(
        sceneOf([glassOf(defaultGlassProfile('copa'), { garnish: [defaultGarnish(kind)], drink: defaultDrink() })]),
      );
      const own = set.surfaces.filter((s) => s.role.startsWith('garnish 1: '));
      expect(own.length).toBeGreaterThan(0);
      expect(own.length).toBeLessThan(250);
      for (const { shape } of own) {
        if (shape.type !== 'mesh') continue;
        expect(shape.positionsM.every(Number.isFinite)).toBe(true);
        expect(shape.normals?.every(Number.isFinite) ?? true).toBe(true);
      }
    }
  });

  it('berries float in the drink, clear of ice and of one another', () => {
    const berries = { ...defaultGarnish('berries'), count: 5 };
    const set = buildSet(
      sceneOf([
        glassOf(defaultGlassProfile('doubleTumbler'), {
          drink: { ...defaultDrink(), fillFraction: 0.6 },
          ice: { ...defaultIceOf('cube'), count: 2 },
          garnish: [berries],
        }),
      ]),
    );
    const middles = set.surfaces.filter((s) => s.role === 'garnish 1: berry').map((s) => s.worldFromLocal.translationM);
    expect(middles).toHaveLength(5);
    middles.forEach((p, i) => {
      for (const q of middles.slice(i + 1))
        expect(Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2])).toBeGreaterThan(0.0125);
    });
  });
});

/** A cap and its flat back are one drop: they share a place. */
const placesOf = (drops: readonly OpticalSurface[]): Set<string> =>
  new Set(drops.map((s) => s.worldFromLocal.translationM.join(' ')));

describe('condensation', () => {
  const profile = defaultGlassProfile('highball');
  const drink = { ...defaultDrink(), fillFraction: 0.8 };
  const dropsOf = (condensation: NonNullable<ReturnType<typeof glassOf>['condensation']>) =>
    buildSet(sceneOf([glassOf(profile, { drink, condensation })])).surfaces.filter((s) => s.role === 'drop');

  it('is as dense as asked, below the drink and a little over it: 3 drops per cm2 of some 220 cm2', () => {
    const drops = dropsOf({ ...defaultCondensation(), dropsPerCm2: 3 });
    const places = placesOf(drops);
    // Outside from about 5 mm to 4 mm over the level (114 mm): pi x 62 x 113 mm2.
    const areaCm2 = Math.PI * 6.2 * 11.3;
    expect(places.size / areaCm2).toBeGreaterThan(2.7);
    expect(places.size / areaCm2).toBeLessThan(3.1);
    const ys = drops.map((s) => s.worldFromLocal.translationM[1]);
    expect(Math.max(...ys)).toBeLessThan(0.12);
  });

  it('never takes more than 1500 drops, and makes them the same from the same seed', () => {
    const many = dropsOf({ ...defaultCondensation(), dropsPerCm2: 60, maxDiameterM: 0.0012 });
    expect(placesOf(many).size).toBeLessThanOrEqual(MOST_DROPS);
    expect(many.length).toBeGreaterThan(1000);
    expect(dropsOf({ ...defaultCondensation(), dropsPerCm2: 60, maxDiameterM: 0.0012 })).toEqual(many);
  });

  it('leaves a wiped band dry', () => {
    const wiped = { bottomM: 0.05, topM: 0.08, azimuthDeg: 90, spanDeg: 60 };
    for (const { worldFromLocal } of dropsOf({ ...defaultCondensation(), wiped })) {
      const [x, y, z] = worldFromLocal.translationM;
      const off = Math.acos(Math.cos(Math.atan2(z, x) - Math.PI / 2));
      // A ball's middle lies a little under the face and keeps its height.
      const inBand = y > 0.0505 && y < 0.0795 && off < Math.PI / 6 - 0.02;
      expect(inBand).toBe(false);
    }
  });
});

describe('bubbles', () => {
  it('lie wholly in the drink, off the glass, the ice and one another', () => {
    const body = bodyOf('highball');
    const garnish = [defaultGarnish('straw')];
    const standing = standingOfGarnish(body, garnish);
    const { drink, ice } = fillVessel('glass', body, { drink: defaultDrink(), ice: defaultIceOf('cube') }, standing);
    if (!drink) throw new Error('filled');
    const found = layBubbles({ ...defaultBubbles(), rising: 150, clinging: 100 }, { body, drink, ice, standing });
    expect(found.length).toBeGreaterThan(180);
    const inside = piecesOf(body.inside);
    let touching = 0;
    found.forEach(({ centreM: [x, y, z], radiusM }, i) => {
      const wallM = distanceToProfileM(inside, { rM: Math.hypot(x, z), yM: y });
      expect(wallM).toBeGreaterThan(radiusM);
      if (wallM < radiusM + 0.0001) touching++;
      expect(y + radiusM).toBeLessThan(drink.levelYM);
      for (const other of found.slice(i + 1)) {
        expect(Math.hypot(x - other.centreM[0], y - other.centreM[1], z - other.centreM[2])).toBeGreaterThan(
          radiusM + other.radiusM,
        );
      }
      for (const { body: piece, placement } of ice) {
        const q = inversePoint(placement, [x, y, z]).map((v, k) => Math.abs(v) - (piece.halfM[k] - piece.bevelM));
        expect(Math.hypot(...q.map((v) => Math.max(0, v))) - piece.bevelM).toBeGreaterThan(radiusM);
      }
    });
    expect(touching).toBeGreaterThan(80);
  });
});

describe('salt on the rim', () => {
  it('is at most 800 squares of bed and 400 of crystals, on the rim alone', () => {
    const set = buildSet(
      sceneOf([glassOf(defaultGlassProfile('conicalStemmed'), { rimCrust: { ...defaultRimCrust(), depthM: 0.03 } })]),
    );
    const trianglesIn = (role: string): number =>
      set.surfaces
        .filter((s) => s.role === role)
        .reduce((sum, { shape }) => sum + (shape.type === 'mesh' ? shape.indices.length / 3 : 0), 0);
    expect(trianglesIn('crystal') / 2).toBeLessThanOrEqual(400);
    expect(trianglesIn('crystal')).toBeGreaterThan(300);
    expect(trianglesIn('crust') / 2).toBeLessThanOrEqual(800);
    const corners = cornersOf(set.surfaces.filter((s) => s.role === 'crust' || s.role === 'crystal'));
    expect(Math.min(...corners.map((p) => p[1]))).toBeGreaterThan(0.17 - 0.0335);
    expect(Math.min(...corners.map((p) => roomToGlassM('conicalStemmed', p)))).toBeGreaterThan(-0.0015);
  });
});

describe('a fully dressed glass', () => {
  it('stays under 3000 surfaces and 12 000 triangles and exact pieces', () => {
    const piece = glassOf(defaultGlassProfile('highball'), {
      drink: {
        ...defaultDrink(),
        foam: defaultFoam(),
        fillFraction: 0.7,
        bubbles: { ...defaultBubbles(), rising: 300, clinging: 200 },
      },
      ice: { ...defaultIceOf('cube'), cloudyCore: 1, count: 6 },
      condensation: { ...defaultCondensation(), dropsPerCm2: 60 },
      rimCrust: defaultRimCrust(),
      garnish: [
        defaultGarnish('citrusWheel'),
        defaultGarnish('mint'),
        defaultGarnish('straw'),
        { ...defaultGarnish('berries'), berry: 'raspberry', diameterM: 0.016 },
      ] as Garnish[],
    });
    const { surfaces } = buildSet(sceneOf([piece]));
    expect(surfaces.length).toBeLessThan(3000);
    const primitives = surfaces.reduce(
      (sum, { shape }) => sum + (shape.type === 'mesh' ? shape.indices.length / 3 : 1),
      0,
    );
    expect(primitives).toBeLessThan(12_000);
    const groups = new Set(surfaces.map((s) => glassGroupOfRole(s.role)));
    expect([...groups].sort()).toEqual(['detail', 'dressing', 'drink', 'ice', 'vessel']);
    expect(surfaces.filter((s) => !isFineDetail(s.role)).length).toBeLessThan(500);
  });
});
