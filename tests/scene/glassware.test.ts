import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../src/core/rigid.ts';
import { createRandom } from '../../src/core/rng.ts';
import { dot, type Vec3 } from '../../src/core/vec3.ts';
import type { OpticalSurface } from '../../src/materials/surface.ts';
import { boundsOfShape, uniteBounds } from '../../src/scene/bounds.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { piecesOf } from '../../src/scene/glassware/glassBody.ts';
import { defaultGlassProfile, GLASS_SHAPES } from '../../src/scene/pieceDefaults.ts';
import { directionAlong, revolvedVolumeM3, shapeFromPiece } from '../../src/scene/profile/index.ts';
import type { GlassProfile } from '../../src/scene/records.ts';
import {
  crossingsAlong,
  enclosedVolumeM3,
  FINE,
  mediaAlong,
  openEdgeCount,
  randomChord,
  trianglesOf,
} from './meshTools.ts';
import { glassOf, randomProfile, sceneOf } from './sceneTools.ts';

const bodyOf = (profile: GlassProfile) => {
  const result = buildGlassBody('glass', profile);
  if (!result.ok) throw new Error(result.error.map((d) => d.message).join(' '));
  return result.value;
};

function widestM(profile: GlassProfile): number {
  switch (profile.shape) {
    case 'bottle':
    case 'carafe':
      return profile.bodyDiameterM;
    case 'highball':
    case 'tumbler':
    case 'doubleTumbler':
    case 'shot':
    case 'mug':
      return profile.rimDiameterM;
    case 'ownProfile':
      return ownWidestM(profile);
    default:
      return Math.max(profile.bowlDiameterM ?? profile.rimDiameterM, profile.footDiameterM);
  }
}

/** Widest drawn point at its scale, plus the reach of the rounded lip past its corner. */
function ownWidestM(profile: Extract<GlassProfile, { shape: 'ownProfile' }>): number {
  const body = bodyOf(profile);
  return (
    2 *
    Math.max(
      ...body.outside.map((p) => boundsOfShape({ shape: shapeFromPiece(p.piece), worldFromLocal: IDENTITY }).maxM[0]),
    )
  );
}

/** Nothing but the vessel: a mug's handle is a body of its own. */
const vesselOf = (surfaces: readonly OpticalSurface[]): OpticalSurface[] =>
  surfaces.filter((s) => s.backVolume === 'glass:glass');

describe.each(GLASS_SHAPES)('%s of generic size', (shape) => {
  const profile = defaultGlassProfile(shape);
  const set = buildSet(sceneOf([glassOf(profile)]));
  const vessel = vesselOf(set.surfaces);
  const body = bodyOf(profile);

  it('is closed: every edge of its triangles is shared by two', () => {
    expect(openEdgeCount(trianglesOf(vessel, { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 32 }))).toBe(0);
  });

  it('encloses the closed-form volume of glass within 0.5 %', () => {
    const exactM3 = revolvedVolumeM3(piecesOf([...body.outside, ...body.inside]));
    expect(exactM3).toBeGreaterThan(1e-5);
    expect(Math.abs(enclosedVolumeM3(trianglesOf(vessel)) / exactM3 - 1)).toBeLessThan(0.005);
  });

  it('shares the end points of neighbouring pieces exactly, and ends on the axis', () => {
    const pieces = piecesOf([...body.outside, ...body.inside]);
    for (let i = 0; i + 1 < pieces.length; i++) {
      expect(pieces[i].to.rM).toBe(pieces[i + 1].from.rM);
      expect(pieces[i].to.yM).toBe(pieces[i + 1].from.yM);
    }
    expect(pieces[0].from.rM).toBe(0);
    expect(pieces.at(-1)?.to.rM).toBe(0);
  });

  it('has no kink from the underside over the rim to the floor', () => {
    const pieces = piecesOf([...body.outside, ...body.inside]);
    for (let i = 0; i + 1 < pieces.length; i++) {
      const before = directionAlong(pieces[i], 1);
      const after = directionAlong(pieces[i + 1], 0);
      expect(before.rM * after.rM + before.yM * after.yM).toBeGreaterThan(1 - 1e-9);
    }
  });

  it('stands 0.2 mm over its position and is exactly as high and as wide as its record', () => {
    const bounds = vessel.map((surface) => boundsOfShape(surface)).reduce(uniteBounds);
    expect(bounds.minM[1]).toBeCloseTo(0.0002, 12);
    expect(bounds.maxM[1]).toBeCloseTo(0.0002 + profile.heightM, 12);
    const widest = widestM(profile);
    expect(bounds.maxM[0] - bounds.minM[0]).toBeCloseTo(widest, 9);
    expect(bounds.maxM[2] - bounds.minM[2]).toBeCloseTo(widest, 9);
  });

  it('sends 300 random rays in and out by turns, glass behind every surface it enters', () => {
    const random = createRandom(7);
    const triangles = trianglesOf(vessel, { turnStepRad: Math.PI / 24, arcStepRad: Math.PI / 24 });
    let met = 0;
    for (let i = 0; i < 300; i++) {
      const { origin, direction } = randomChord(random, [0, profile.heightM / 2, 0], profile.heightM);
      const crossings = crossingsAlong(triangles, origin, direction);
      crossings.forEach((c, k) => {
        expect(c.front).toBe(k % 2 === 0);
      });
      const media = mediaAlong(vessel, crossings);
      expect(media.at(-1)).toBe('air');
      if (crossings.length > 0) met++;
    }
    expect(met).toBeGreaterThan(40);
  });

  it('is wallM thick where the wall meets the rim', () => {
    if (profile.shape === 'ownProfile') return;
    const outer = body.outside.filter((p) => p.role === 'outer wall').at(-1)?.piece;
    const inner = body.inside[0].piece;
    if (!outer) throw new Error('no outer wall');
    const mid = Math.hypot(outer.to.rM - inner.from.rM, outer.to.yM - inner.from.yM);
    expect(mid).toBeCloseTo(profile.wallM, 9);
  });
});

describe.each(GLASS_SHAPES)('%s of any size', (shape) => {
  it('is a sound solid or says which field to mend, over 48 seeded sets of sizes', () => {
    let made = 0;
    for (let seed = 0; seed < 48; seed++) {
      const profile = randomProfile(shape, seed, 0.45);
      const result = buildGlassBody('glass', profile);
      if (!result.ok) {
        expect(result.error.length).toBeGreaterThan(0);
        for (const d of result.error) {
          expect(d.severity).toBe('error');
          expect(d.recordId).toBe('glass');
          const field = d.field?.replace('profile.', '') ?? '';
          expect(Object.keys(profile)).toContain(field);
          expect(d.message).toContain(field);
        }
        continue;
      }
      made++;
      const pieces = piecesOf([...result.value.outside, ...result.value.inside]);
      const exactM3 = revolvedVolumeM3(pieces);
      for (const p of pieces) {
        expect(Number.isFinite(p.from.rM + p.from.yM + p.to.rM + p.to.yM)).toBe(true);
        expect(Math.min(p.from.rM, p.to.rM)).toBeGreaterThanOrEqual(0);
      }
      if (seed % 8 > 0) continue;
      const surfaces = vesselOf(buildSet(sceneOf([glassOf(profile)])).surfaces);
      const triangles = trianglesOf(surfaces, { ...FINE, turnStepRad: Math.PI / 32 });
      // 64 sides hold sin(2 pi / 64) / (2 pi / 64) of the turn's area.
      const sides = Math.sin(Math.PI / 32) / (Math.PI / 32);
      expect(Math.abs(enclosedVolumeM3(triangles) / (exactM3 * sides) - 1)).toBeLessThan(0.005);
      expect(openEdgeCount(trianglesOf(surfaces, { turnStepRad: Math.PI / 8, arcStepRad: Math.PI / 16 }))).toBe(0);
    }
    expect(made).toBeGreaterThan(18);
  });
});

describe('normals of glass', () => {
  it.each(GLASS_SHAPES)('%s: a step of 0.05 mm along any normal leaves the glass, a step back enters it', (shape) => {
    const surfaces = vesselOf(buildSet(sceneOf([glassOf(defaultGlassProfile(shape))])).surfaces);
    const triangles = trianglesOf(surfaces, { turnStepRad: Math.PI / 48, arcStepRad: Math.PI / 64 });
    const random = createRandom(3);
    const isInside = (p: Vec3): boolean => {
      const direction: Vec3 = [0.2673, 0.5345, 0.8018];
      return crossingsAlong(triangles, p, direction).length % 2 === 1;
    };
    for (let i = 0; i < 40; i++) {
      const t = triangles[Math.floor(random() * triangles.length)];
      const centroid: Vec3 = [0, 1, 2].map((k) => (t.a[k] + t.b[k] + t.c[k]) / 3) as unknown as Vec3;
      const step = (s: number): Vec3 => [
        centroid[0] + t.normal[0] * s,
        centroid[1] + t.normal[1] * s,
        centroid[2] + t.normal[2] * s,
      ];
      expect(isInside(step(5e-5))).toBe(false);
      expect(isInside(step(-5e-5))).toBe(true);
    }
    expect(triangles.every((t) => Math.abs(dot(t.normal, t.normal) - 1) < 1e-5)).toBe(true);
  });
});

describe('a glass that cannot be', () => {
  it.each([
    ['highball', { wallM: 0.02, rimDiameterM: 0.03, baseDiameterM: 0.03 }, 'profile.wallM'],
    ['tumbler', { baseThicknessM: 0.06, heightM: 0.05 }, 'profile.baseThicknessM'],
    ['highball', { footRadiusM: 0.02, baseDiameterM: 0.03, rimDiameterM: 0.03 }, 'profile.footRadiusM'],
    ['wine', { bowlHeightM: 0.3 }, 'profile.bowlHeightM'],
    ['wine', { rimDiameterM: 0.09 }, 'profile.bowlDiameterM'],
    ['coupe', { stemDiameterM: 0.07 }, 'profile.stemDiameterM'],
    ['flute', { footDiameterM: 0.01 }, 'profile.footDiameterM'],
    ['conicalStemmed', { baseThicknessM: 0.0005 }, 'profile.baseThicknessM'],
    ['bottle', { neckDiameterM: 0.06 }, 'profile.neckDiameterM'],
    ['bottle', { shoulderHeightM: 0.22 }, 'profile.shoulderHeightM'],
    ['carafe', { neckDiameterM: 0.12 }, 'profile.neckDiameterM'],
    ['carafe', { rimDiameterM: 0.03 }, 'profile.rimDiameterM'],
    ['carafe', { neckHeightM: 0.05 }, 'profile.neckHeightM'],
    ['carafe', { footDiameterM: 0.12 }, 'profile.footDiameterM'],
    ['shot', { baseThicknessM: 0.058 }, 'profile.baseThicknessM'],
    ['copa', { rimDiameterM: 0.03 }, 'profile.rimDiameterM'],
  ] as const)('%s with %o is left out and points at %s', (shape, change, field) => {
    const profile = { ...defaultGlassProfile(shape), ...change } as GlassProfile;
    const set = buildSet(sceneOf([glassOf(profile)]));
    expect(set.surfaces).toHaveLength(0);
    const found = set.diagnostics.find((d) => d.field === field);
    expect(found?.severity).toBe('error');
    expect(found?.recordId).toBe('glass');
  });
});

describe('a straight glass with square inside corners and a flat rim', () => {
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
  it('has the volume of two cylinders: pi (40^2 x 100 - 36^2 x 90) mm^3', () => {
    const body = bodyOf(profile);
    const exact = Math.PI * (0.04 ** 2 * 0.1 - 0.036 ** 2 * 0.09);
    expect(revolvedVolumeM3(piecesOf([...body.outside, ...body.inside]))).toBeCloseTo(exact, 14);
    expect(body.outside.map((p) => p.role)).toEqual(['underside', 'outer wall', 'rim']);
    expect(body.inside).toHaveLength(2);
  });
});
