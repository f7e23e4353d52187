import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../src/core/rigid.ts';
import { createRandom } from '../../src/core/rng.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import { boxSolid, cutSolid, facePlanes, meshOfSolid, solidVolumeM3 } from '../../src/scene/parts/convexSolid.ts';
import { lensBar, lensDisc } from '../../src/scene/parts/lens.ts';
import { ballShape, ovalProfile, rodProfile } from '../../src/scene/parts/rod.ts';
import { frameAlong, turnedParts } from '../../src/scene/parts/solidPart.ts';
import { directionAlong } from '../../src/scene/profile/index.ts';
import { enclosedVolumeM3, openEdgeCount, trianglesOf } from './meshTools.ts';

const COARSE = { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 16 };

describe('a flat-convex lens', () => {
  it('is closed and holds pi h (3 a^2 + h^2) / 6, a 2 mm base 0.7 mm high', () => {
    const lens = lensDisc('lens', 0.002, 0.0007, IDENTITY);
    expect(openEdgeCount(trianglesOf(lens, COARSE))).toBe(0);
    const exact = (Math.PI * 0.0007 * (3 * 0.002 ** 2 + 0.0007 ** 2)) / 6;
    expect(enclosedVolumeM3(trianglesOf(lens)) / exact).toBeCloseTo(1, 2);
  });

  it('drawn out to a bar is closed and holds the lens and its cross section times the length', () => {
    const a = 0.002;
    const h = 0.0008;
    const bar = lensBar('bar', { halfWidthM: a, heightM: h, lengthM: 0.03 }, frameAlong([0.1, 0, 0.2], [0, 0.6, 0.8]));
    expect(bar).toHaveLength(6);
    // The long side is one rectangle against many ends of triangles: joined by hand, only those edges may be left.
    const r = (a * a + h * h) / (2 * h);
    const half = Math.asin(a / r);
    const section = r * r * half - a * (r - h);
    const lens = (Math.PI * h * (3 * a * a + h * h)) / 6;
    expect(enclosedVolumeM3(trianglesOf(bar)) / (lens + section * 0.03)).toBeCloseTo(1, 2);
  });
});

describe('bars, balls and ovals', () => {
  it('are closed and hold their volume: a 6 mm bar with rounded ends, a ball, an oval', () => {
    const bar = turnedParts('bar', rodProfile(0.003, 0.02, 0.001), IDENTITY);
    expect(openEdgeCount(trianglesOf(bar, COARSE))).toBe(0);
    const ball = [{ shape: ballShape(0.01), worldFromLocal: IDENTITY }];
    expect(openEdgeCount(trianglesOf(ball, COARSE))).toBe(0);
    expect(enclosedVolumeM3(trianglesOf(ball)) / ((4 / 3) * Math.PI * 1e-6)).toBeCloseTo(1, 2);
    const oval = ovalProfile(0.009, 0.011);
    expect(openEdgeCount(trianglesOf(turnedParts('oval', oval, IDENTITY), COARSE))).toBe(0);
    // Between the ball inside and the ball outside it, near the ellipsoid.
    const volume = enclosedVolumeM3(trianglesOf(turnedParts('oval', oval, IDENTITY)));
    expect(volume / ((4 / 3) * Math.PI * 0.009 ** 2 * 0.011)).toBeGreaterThan(0.97);
    expect(volume / ((4 / 3) * Math.PI * 0.009 ** 2 * 0.011)).toBeLessThan(1.03);
  });

  it.each([
    [0.009, 0.011],
    [0.01, 0.0125],
    [0.02, 0.019],
    [0.01, 0.01],
  ])('an oval of %f by %f is as wide and as long as asked, and smooth', (radiusM, halfM) => {
    const oval = ovalProfile(radiusM, halfM);
    expect(oval[0].from.yM).toBeCloseTo(-halfM, 12);
    expect(oval[oval.length - 1].to.yM).toBeCloseTo(halfM, 12);
    for (let i = 0; i + 1 < oval.length; i++) {
      const u = directionAlong(oval[i], 1);
      const v = directionAlong(oval[i + 1], 0);
      expect(u.rM * v.rM + u.yM * v.yM).toBeCloseTo(1, 9);
    }
    const widest = Math.max(...trianglesOf(turnedParts('oval', oval, IDENTITY)).map((t) => Math.hypot(t.a[0], t.a[2])));
    expect(widest).toBeCloseTo(radiusM, 6);
  });
});

describe('a box cut by planes', () => {
  it('halves when cut through its middle, and loses a corner of 1/6 of the cube of the cut', () => {
    const cube = boxSolid([1, 1, 1]);
    expect(solidVolumeM3(cube)).toBeCloseTo(8, 12);
    expect(solidVolumeM3(cutSolid(cube, { normal: [0, 1, 0], offsetM: 0 }))).toBeCloseTo(4, 12);
    const s = 1 / Math.sqrt(3);
    // The plane x + y + z = 2 strikes off a corner with three edges of length 1: 1/6.
    const cut = cutSolid(cube, { normal: [s, s, s], offsetM: 2 * s });
    expect(solidVolumeM3(cut)).toBeCloseTo(8 - 1 / 6, 12);
    expect(cut.faces).toHaveLength(7);
  });

  it('stays closed and convex over 100 seeded lumps of 12 cuts', () => {
    for (let seed = 0; seed < 100; seed++) {
      const random = createRandom(seed);
      let solid = boxSolid([0.012, 0.01, 0.011]);
      for (let k = 0; k < 12; k++) {
        const y = 2 * random() - 1;
        const phi = 2 * Math.PI * random();
        const r = Math.sqrt(1 - y * y);
        const normal: Vec3 = [r * Math.cos(phi), y, r * Math.sin(phi)];
        solid = cutSolid(solid, { normal, offsetM: 0.009 + 0.005 * random() });
      }
      const triangles = trianglesOf([{ shape: meshOfSolid(solid), worldFromLocal: IDENTITY }]);
      expect(openEdgeCount(triangles, 1e-9)).toBe(0);
      expect(enclosedVolumeM3(triangles) / solidVolumeM3(solid)).toBeCloseTo(1, 5);
      for (const { normal, offsetM } of facePlanes(solid)) {
        expect(offsetM).toBeGreaterThan(0);
        for (const p of solid.corners)
          expect(normal[0] * p[0] + normal[1] * p[1] + normal[2] * p[2]).toBeLessThan(offsetM + 1e-9);
      }
    }
  });
});
