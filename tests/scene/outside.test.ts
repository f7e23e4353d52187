import { describe, expect, it } from 'vitest';
import { buildSet } from '../../src/scene/buildSet.ts';
import { buildGlassBody } from '../../src/scene/glassware/buildGlassBody.ts';
import { finishOfFrost } from '../../src/scene/glassware/frost.ts';
import { piecesOf } from '../../src/scene/glassware/glassBody.ts';
import { LABEL_GAP_M } from '../../src/scene/glassware/label.ts';
import { defaultGlassCut, defaultGlassProfile, defaultLabel, defaultStopper } from '../../src/scene/pieceDefaults.ts';
import type { GlassPiece } from '../../src/scene/pieces/glass.ts';
import { distanceToProfileM } from '../../src/scene/profile/index.ts';
import type { GlassCut, GlassProfile } from '../../src/scene/records.ts';
import { enclosedVolumeM3, openEdgeCount, trianglesOf } from './meshTools.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const COARSE = { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 16 };
const setOf = (profile: GlassProfile, more: Partial<GlassPiece>) => buildSet(sceneOf([glassOf(profile, more)]));
const outsideOf = (profile: GlassProfile) => {
  const body = buildGlassBody('glass', profile);
  if (!body.ok) throw new Error(body.error[0].message);
  return piecesOf(body.value.outside);
};

describe('frost', () => {
  it('is 0 polished, alpha 0.21 satin, 0.6 sand-blasted, on the outside alone', () => {
    expect(finishOfFrost(0)).toEqual({ type: 'clear', roughness: 0 });
    expect(finishOfFrost(0.5)).toEqual({ type: 'clear', roughness: 0.2121 });
    expect(finishOfFrost(1)).toEqual({ type: 'clear', roughness: 0.6 });
    const { surfaces } = setOf(defaultGlassProfile('wine'), { frost: 1 });
    const rough = new Set(
      surfaces.filter((s) => s.finish.type === 'clear' && s.finish.roughness > 0).map((s) => s.role),
    );
    expect([...rough].sort()).toEqual(['foot', 'foot edge', 'outer wall', 'stem']);
  });
});

describe('a label', () => {
  it.each(['bottle', 'carafe', 'highball', 'copa'] as const)('follows the wall of a %s, 0.1 mm off it', (shape) => {
    const profile = defaultGlassProfile(shape);
    const bottomM = shape === 'copa' ? 0.13 : 0.03;
    const { surfaces } = setOf(profile, { label: { ...defaultLabel(), bottomM, heightM: 0.05 } });
    const label = surfaces.filter((s) => s.role === 'label');
    expect(label.length).toBeGreaterThan(0);
    const outside = outsideOf(profile);
    let low = 1;
    let high = 0;
    for (const a of trianglesOf(label).flatMap((t) => [t.a, t.b, t.c])) {
      const yM = a[1] - 0.0002;
      expect(distanceToProfileM(outside, { rM: Math.hypot(a[0], a[2]), yM })).toBeCloseTo(LABEL_GAP_M, 6);
      expect(a[2]).toBeGreaterThan(0);
      low = Math.min(low, yM);
      high = Math.max(high, yM);
    }
    expect(low).toBeCloseTo(bottomM, 3);
    expect(high).toBeCloseTo(bottomM + 0.05, 3);
  });

  it('off the wall is left out with a word', () => {
    const set = setOf(defaultGlassProfile('bottle'), { label: { ...defaultLabel(), bottomM: 0.2, heightM: 0.1 } });
    expect(set.diagnostics.map((d) => d.code)).toContain('label-off-glass');
    expect(set.surfaces.some((s) => s.role === 'label')).toBe(false);
  });
});

describe('a stopper', () => {
  it.each(['cork', 'glass'] as const)(
    'of %s is closed, faces outward and stands its height out of the mouth',
    (kind) => {
      for (const shape of ['bottle', 'carafe'] as const) {
        const profile = defaultGlassProfile(shape);
        const set = setOf(profile, { stopper: { ...defaultStopper(), kind, heightM: 0.02 } });
        const own = set.surfaces.filter((s) => s.role === 'stopper');
        const triangles = trianglesOf(own, COARSE);
        expect(openEdgeCount(triangles)).toBe(0);
        expect(enclosedVolumeM3(triangles)).toBeGreaterThan(0);
        expect(Math.max(...triangles.map((t) => t.a[1]))).toBeCloseTo(profile.heightM + 0.0202, 5);
        const outside = outsideOf(profile);
        // Never nearer than its fit of 0.08 mm to the lip.
        const least = Math.min(
          ...triangles.map((t) => distanceToProfileM(outside, { rM: Math.hypot(t.a[0], t.a[2]), yM: t.a[1] - 0.0002 })),
        );
        expect(least).toBeGreaterThan(0.00007);
        expect(set.volumes.some((v) => v.id === 'glass:stopper')).toBe(kind === 'glass');
      }
    },
  );
});

describe('a cut pattern', () => {
  const thick = { ...defaultGlassProfile('doubleTumbler'), wallM: 0.004 } as GlassProfile;
  const cut: GlassCut = { ...defaultGlassCut(), bottomM: 0.02, topM: 0.08 };

  it('counts as asked: 36 bars or grooves of 6 faces, dents of 2 faces in rows', () => {
    const faces = (style: GlassCut['style'], count: number) =>
      setOf(thick, { cut: { ...cut, style, count } }).surfaces.filter((s) => s.role === 'cut').length;
    expect(faces('ribs', 36)).toBe(36 * 6);
    expect(faces('flutes', 24)).toBe(24 * 6);
    const dents = faces('hammered', 24) / 2;
    // Pitch pi 92 / 24 = 12 mm, rows 10.6 mm apart over 60 mm less one pitch: 4 or 5 rows of 21 to 24.
    expect(dents).toBeGreaterThan(80);
    expect(dents).toBeLessThan(121);
  });

  it('bars stand out and grooves go in by depthM', () => {
    const outside = outsideOf(thick);
    const reach = (style: 'ribs' | 'flutes'): number[] =>
      trianglesOf(
        setOf(thick, { cut: { ...cut, style, count: 24, depthM: 0.0008 } }).surfaces.filter((s) => s.role === 'cut'),
      )
        .flatMap((t) => [t.a, t.b, t.c])
        .map((p) => {
          const wall = outside.find((q) => q.type === 'line' && q.to.yM > 0.08);
          if (!wall) throw new Error('a straight wall');
          const l = Math.hypot(wall.to.rM - wall.from.rM, wall.to.yM - wall.from.yM);
          const rM = Math.hypot(p[0], p[2]) - wall.from.rM;
          return (rM * (wall.to.yM - wall.from.yM) - (p[1] - 0.0002 - wall.from.yM) * (wall.to.rM - wall.from.rM)) / l;
        });
    expect(reach('ribs').reduce((a, b) => Math.max(a, b))).toBeCloseTo(0.0008, 5);
    expect(reach('flutes').reduce((a, b) => Math.min(a, b))).toBeCloseTo(-0.0008, 5);
  });

  it.each<readonly [Partial<GlassCut>, string]>([
    [{ style: 'flutes', depthM: 0.0038 }, 'cut.depthM'],
    [{ style: 'ribs', count: 150, depthM: 0.003 }, 'cut.depthM'],
    [{ style: 'ribs', topM: 0.2 }, 'cut.bottomM'],
    [{ style: 'ribs', topM: 0.021 }, 'cut.topM'],
    [{ style: 'flutes', count: 4, bottomM: 0.03, topM: 0.05 }, 'cut.topM'],
  ])('%o is left out and points at %s', (change, field) => {
    const set = setOf(thick, { cut: { ...cut, ...change } });
    expect(set.surfaces.some((s) => s.role === 'cut')).toBe(false);
    expect(set.diagnostics.find((d) => d.code === 'cut-does-not-fit')?.field).toBe(field);
  });
});

describe('a handle', () => {
  const mug = defaultGlassProfile('mug');
  if (mug.shape !== 'mug') throw new Error('a mug');

  it('is closed: two discs, three bars and two bends round one another without a gap', () => {
    const own = setOf(mug, {}).surfaces.filter((s) => s.role === 'handle');
    expect(own).toHaveLength(7);
    // Bars and bends are cut alike only where their steps meet: 90 degrees by 8 steps, 32 sides each.
    expect(openEdgeCount(trianglesOf(own, { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 16 }))).toBe(0);
    // Length along the middle times the section (Pappus): the volume of a bent bar.
    const { handle } = mug;
    const radiusM = handle.thicknessM / 2;
    const volume = enclosedVolumeM3(trianglesOf(own));
    const lengthM = volume / (Math.PI * radiusM ** 2);
    expect(lengthM).toBeGreaterThan(handle.spanM + 1.2 * handle.reachM);
    expect(lengthM).toBeLessThan(handle.spanM + 2.2 * handle.reachM);
  });

  it.each([
    [{ middleM: 0.12 }, 'profile.handle.middleM'],
    [{ spanM: 0.02 }, 'profile.handle.spanM'],
    [{ reachM: 0.006 }, 'profile.handle.reachM'],
  ])('%o is refused and points at %s; the mug is built without it', (change, field) => {
    const set = setOf({ ...mug, handle: { ...mug.handle, ...change } }, {});
    expect(set.diagnostics.find((d) => d.severity === 'error')?.field).toBe(field);
    expect(set.surfaces.some((s) => s.role === 'handle')).toBe(false);
    expect(set.surfaces.some((s) => s.role === 'outer wall')).toBe(true);
  });
});
