import { describe, expect, it } from 'vitest';
import { cross, dot, normalize, sub } from '../../src/core/vec3.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { facetSleeve } from '../../src/scene/glassware/facets.ts';
import { defaultCondensation, defaultDrink } from '../../src/scene/pieceDefaults.ts';
import type { GlassProfile } from '../../src/scene/records.ts';
import { traceRays } from '../helpers/traceRays.ts';
import { enclosedVolumeM3, openEdgeCount, trianglesOf } from './meshTools.ts';
import { createProbe } from './probe.ts';
import { glassOf, sceneOf } from './sceneTools.ts';

const CUT = { style: 'facets', count: 10, depthM: 0.002, bottomM: 0.02, topM: 0.08, seed: 1 } as const;
const straight: GlassProfile = {
  shape: 'tumbler',
  heightM: 0.1,
  rimDiameterM: 0.08,
  baseDiameterM: 0.08,
  wallM: 0.005,
  baseThicknessM: 0.014,
  footRadiusM: 0.003,
  floorFilletM: 0.004,
  rim: 'rounded',
};

describe('facets', () => {
  it('are one closed sleeve of air between two many-sided tubes, of the volume of prisms and frusta', () => {
    const wallRM = 0.04;
    const mesh = { shape: facetSleeve(() => wallRM, CUT), worldFromLocal: { ...glassFrame } };
    const triangles = trianglesOf([mesh]);
    expect(openEdgeCount(triangles)).toBe(0);
    // Area of a regular n-gon by its apothem: n a^2 tan(pi / n).
    const area = (a: number): number => CUT.count * a * a * Math.tan(Math.PI / CUT.count);
    const slope = 1.3 * CUT.depthM;
    const out = wallRM + 0.00006;
    const end = wallRM + 0.00003;
    const deep = wallRM - CUT.depthM;
    const frustum = (slope / 3) * (area(end) + area(deep) + Math.sqrt(area(end) * area(deep)));
    const hollow = area(out) * 0.06 - 2 * frustum - area(deep) * (0.06 - 2 * slope);
    expect(enclosedVolumeM3(triangles) / hollow).toBeCloseTo(1, 4);
  });

  it('leave glass 3 mm thick behind their middles: 5 mm of wall less 2 mm', () => {
    const set = buildSet(sceneOf([glassOf(straight, { cut: { ...CUT } })]));
    expect(set.diagnostics.filter((d) => d.severity === 'error')).toEqual([]);
    const sleeve = set.surfaces.filter((s) => s.role === 'cut');
    expect(sleeve).toHaveLength(1);
    const upright = trianglesOf(sleeve).flatMap(({ a, b, c }) => {
      const n = normalize(cross(sub(b, a), sub(c, a)));
      // Fronts that look at the axis: the faces that are ground into the glass.
      return Math.abs(n[1]) < 1e-4 && dot(a, n) < 0 ? [-dot(a, n)] : [];
    });
    expect(upright).toHaveLength(2 * CUT.count);
    for (const apothemM of upright) expect(apothemM).toBeCloseTo(0.038, 6);
    const { media } = createProbe(set)([1, 0.05, 0.0003], [-1, 0, 0]);
    expect(media).toEqual(['air', 'glass:cut', 'glass:glass', 'air', 'glass:glass', 'glass:cut', 'air']);
  });

  it('lose nothing of a uniform surround where the glass absorbs nothing, through a face and near an edge', () => {
    const set = buildSet(sceneOf([glassOf(straight, { cut: { ...CUT }, glassAbsorptionPerM: [0, 0, 0] })]));
    for (const zM of [0.0031, 0.0111]) {
      const { rgb, error } = traceRays(set, [1, 0.0487, zM], [-1, 0, 0], 2000, {
        surroundRgb: [1, 1, 1],
        maxDepth: 200,
      });
      expect(Math.abs(rgb[0] - 1)).toBeLessThan(Math.max(0.004, 4 * error));
    }
  });
});

const glassFrame = { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translationM: [0, 0, 0] } as const;

describe('mist', () => {
  const drink = { ...defaultDrink(), fillFraction: 0.8 };
  const areaOf = (mist: number, more: object = {}): number => {
    const condensation = { ...defaultCondensation(), dropsPerCm2: 0, mist, bottomM: 0.02, topM: 0.07, ...more };
    const set = buildSet(sceneOf([glassOf(straight, { drink, condensation })]));
    createProbe(set)([1, 0.05, 0.001], [-1, 0, 0]);
    return trianglesOf(
      set.surfaces.filter((s) => s.role === 'outer wall' && s.finish.type === 'clear' && s.finish.roughness > 0),
    ).reduce((sum, { a, b, c }) => {
      const [u, v] = [0, 1].map((k) => [0, 1, 2].map((i) => (k === 0 ? b : c)[i] - a[i]));
      const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
      return sum + Math.hypot(...n) / 2;
    }, 0);
  };

  it('covers 2 pi r h of the wall between its heights: 80 mm across, 50 mm high', () =>
    expect(areaOf(0.6) / (2 * Math.PI * 0.04 * 0.05)).toBeCloseTo(1, 2));

  it('leaves out a band of 20 mm wiped all round, and a quarter of it where a quarter is wiped', () => {
    const wiped = { bottomM: 0.03, topM: 0.05, azimuthDeg: 90, spanDeg: 360 };
    expect(areaOf(0.6, { wiped }) / (2 * Math.PI * 0.04 * 0.03)).toBeCloseTo(1, 2);
    const quarter = { ...wiped, spanDeg: 90 };
    expect(areaOf(0.6, { wiped: quarter }) / (2 * Math.PI * 0.04 * 0.045)).toBeCloseTo(1, 2);
  });

  it('is none when left out', () => expect(areaOf(0)).toBe(0));
});
