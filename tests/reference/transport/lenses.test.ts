import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/rng.ts';
import { normalize, type Vec3 } from '../../../src/core/vec3.ts';
import type { OpticalSurface, Volume } from '../../../src/materials/surface.ts';
import { compileWorld } from '../../../src/transport/index.ts';
import { refractRay } from '../../../src/transport/kernels/boundary.ts';
import { createInsideSet } from '../../../src/transport/kernels/insideSet.ts';
import { createIntersector } from '../../../src/transport/kernels/intersector.ts';
import { createMediumKernel } from '../../../src/transport/kernels/medium.ts';
import { dielectricReflectance } from '../../../src/transport/kernels/microfacet.ts';
import { PRIMITIVE } from '../../../src/transport/layout/schema.ts';
import { CLEAR, levelSquare, matte, mediumVolume, setOf, sphereShape, surfaceOf } from '../../helpers/surfaces.ts';
import { traceRays } from '../../helpers/traceRays.ts';

/*
 * Lens and prism formulas: Born & Wolf, Principles of Optics, chapters 1 and 4 (from memory; every figure re-derived). Rays go
 * through the tracer's own intersection, media and refraction.
 */

/** Follows a ray by refraction alone to the last surface; returns where it leaves and which way. */
function refractThrough(
  surfaces: OpticalSurface[],
  volumes: Volume[],
  origin: Vec3,
  direction: Vec3,
): { at: Vec3; d: Vec3; crossings: number } {
  const world = compileWorld(setOf(surfaces, volumes));
  const { ray, hit, hitIndex, closest, normalAtHit } = createIntersector(world);
  const inside = createInsideSet(world);
  const media = createMediumKernel(world);
  inside.clear();
  ray.set([...origin, ...normalize(direction)]);
  let crossings = 0;
  for (; crossings < 12; crossings++) {
    ray[6] = 1e-7;
    ray[7] = Number.POSITIVE_INFINITY;
    if (!closest()) break;
    normalAtHit();
    const w = hitIndex[0] * PRIMITIVE.strideWords;
    const front = world.primitiveWords[w + PRIMITIVE.offset.frontVolume];
    const back = world.primitiveWords[w + PRIMITIVE.offset.backVolume];
    const toward = ray[3] * hit[1] + ray[4] * hit[2] + ray[5] * hit[3];
    const [from, to] = toward < 0 ? [front, back] : [back, front];
    const eta = media.index(inside.mediumAfter(from, to)) / media.index(inside.medium());
    const [x, y, z] = [0, 1, 2].map((k) => ray[k] + hit[0] * ray[3 + k]);
    refractRay(ray, x, y, z, toward, hit[1], hit[2], hit[3], eta);
    inside.cross(from, to);
  }
  return { at: [ray[0], ray[1], ray[2]], d: [ray[3], ray[4], ray[5]], crossings };
}

const glass = (n: number): Volume[] => [mediumVolume('glass', n)];
const spherical = (radiusM: number, centreYM: number, from: number, to: number): OpticalSurface =>
  surfaceOf('lens', { type: 'revolvedArc', centreRM: 0, centreYM, radiusM, angle0Rad: from, angle1Rad: to }, CLEAR, {
    backVolume: 'glass',
  });

describe('lenses of turned glass', () => {
  for (const [n, diameterMm, focalMm] of [
    [1.5, 80, 60],
    [1.333, 80, 80.06006],
    [1.52, 70, 51.15385],
  ] as const)
    it(`a ball of n ${n}, ${diameterMm} mm, focuses at ${focalMm} mm from its centre within 0.5 %`, () => {
      const r = diameterMm / 2000;
      const h = r * 0.01;
      const { at, d } = refractThrough(
        [surfaceOf('ball', sphereShape(r), CLEAR, { backVolume: 'glass' })],
        glass(n),
        [h, 1, 0],
        [0, -1, 0],
      );
      const crossY = at[1] - (at[0] / d[0]) * d[1];
      expect(Math.abs(-crossY * 1000 - focalMm) / focalMm).toBeLessThan(0.005);
    });

  it('a filled round glass focuses in its round section like the ball, R n / (2 (n - 1)) from its axis', () => {
    const n = 1.333;
    const r = 0.035;
    const side = surfaceOf('drink', { type: 'revolvedLine', r0M: r, y0M: -1, r1M: r, y1M: 1 }, CLEAR, {
      backVolume: 'glass',
    });
    const { at, d } = refractThrough([side], glass(n), [r * 0.01, 0, 1], [0, 0, -1]);
    const crossZ = at[2] - (at[0] / d[0]) * d[2];
    expect(Math.abs(-crossZ / ((r * n) / (2 * (n - 1))) - 1)).toBeLessThan(0.005);
  });

  it('a biconvex lens R 100 / -100, 10 mm thick, n 1.5168 has its focal length of 98.426 mm', () => {
    const R = 0.1;
    const t = 0.01;
    const half = Math.acos(0.02 / R);
    const lens = [spherical(R, t / 2 - R, half, Math.PI / 2), spherical(R, R - t / 2, -Math.PI / 2, -half)];
    const h = 0.0005;
    const { d } = refractThrough(lens, glass(1.5168), [h, 1, 0], [0, -1, 0]);
    const focal = h / Math.abs(d[0] / d[1]);
    expect(Math.abs(focal * 1000 - 98.426) / 98.426).toBeLessThan(0.005);
  });

  it('an empty tumbler wall (n 1.49, R 35 and 32 mm) is a weak negative lens of -1135 mm', () => {
    const wall = [
      surfaceOf('w', { type: 'revolvedLine', r0M: 0.035, y0M: -1, r1M: 0.035, y1M: 1 }, CLEAR, { backVolume: 'glass' }),
      surfaceOf('w', { type: 'revolvedLine', r0M: 0.032, y0M: 1, r1M: 0.032, y1M: -1 }, CLEAR, { backVolume: 'glass' }),
    ];
    // One wall: start inside the tumbler's bore, so that only the far wall is crossed.
    const h = 0.0001;
    const { d } = refractThrough(wall, glass(1.49), [h, 0, 0], [0, 0, -1]);
    const focal = h / (d[0] / d[2]);
    expect(Math.abs(Math.abs(focal) * 1000 - 1135.238) / 1135.238).toBeLessThan(0.005);
    // Spreads: a ray right of the axis leaves further to the right.
    expect(d[0]).toBeGreaterThan(0);
  });
});

describe('prisms', () => {
  for (const [apexDeg, n, deviationDeg] of [
    [60, 1.5, 37.18076],
    [60, 1.5168, 38.6467],
    [60, 1.522376, 39.13811],
    [60, 1.514322, 38.42914],
    [60, 1.333, 23.59501],
    [45, 1.5, 25.06278],
  ] as const)
    it(`${apexDeg} degrees of n ${n} turn a ray by ${deviationDeg} degrees at least deviation, within 0.05`, () => {
      const a = (apexDeg * Math.PI) / 180;
      const [s, c] = [Math.sin(a / 2), Math.cos(a / 2)];
      // Apex up at the origin, faces going down on both sides.
      const face = (side: 1 | -1): OpticalSurface =>
        surfaceOf(
          'prism',
          side > 0
            ? { type: 'quad', originM: [0, 0, -1], edgeUM: [0, 0, 2], edgeVM: [s, -c, 0] }
            : { type: 'quad', originM: [0, 0, -1], edgeUM: [-s, -c, 0], edgeVM: [0, 0, 2] },
          CLEAR,
          { backVolume: 'glass' },
        );
      const incidence = Math.asin(n * Math.sin(a / 2));
      // Symmetrical passage: the ray meets the left face at this angle to its normal (-c, s).
      const turn = incidence - a / 2;
      const d0: Vec3 = [Math.cos(turn), Math.sin(turn), 0];
      const target: Vec3 = [-0.5 * s, -0.5 * c, 0];
      const { d, crossings } = refractThrough(
        [face(1), face(-1)],
        glass(n),
        [target[0] - d0[0], target[1] - d0[1], 0],
        d0,
      );
      expect(crossings).toBe(2);
      const deviation = (Math.acos(d[0] * d0[0] + d[1] * d0[1]) * 180) / Math.PI;
      expect(Math.abs(deviation - deviationDeg)).toBeLessThan(0.05);
    });
});

describe('boundaries', () => {
  it('reflect everything past the critical angle: 41.81 degrees inside 1.5, 61.28 from 1.52 into 1.333', () => {
    for (const [inner, outer, degrees] of [
      [1.5, 1, 41.81031],
      [1.52, 1.333, 61.27943],
    ] as const) {
      const at = (deg: number) => dielectricReflectance(Math.cos((deg * Math.PI) / 180), outer / inner);
      expect(at(degrees + 0.001)).toBe(1);
      expect(at(degrees - 0.05)).toBeLessThan(1);
    }
  });

  it('keep what they let through: radiance grows by n^2 on the way in and shrinks by it on the way out', () => {
    // In and out of a pane the factor cancels.
    const slab = [
      surfaceOf('top', levelSquare([0, 0.02, 0], 4, 'up'), CLEAR, { backVolume: 'glass' }),
      surfaceOf('bottom', levelSquare([0, 0.01, 0], 4, 'down'), CLEAR, { backVolume: 'glass' }),
    ];
    const lit = traceRays(setOf(slab, glass(1.5)), [0, 1, 0], [0, -1, 0], 4000, { surroundRgb: [1, 1, 1] });
    expect(lit.rgb[0]).toBeCloseTo(1, 3);
    // A white floor inside the glass: light enters once, is scattered there, and leaves; a factor kept only one way would show.
    const up = surfaceOf('top', levelSquare([0, 0.02, 0], 4, 'up'), CLEAR, { backVolume: 'glass' });
    const floor = surfaceOf('floor', levelSquare([0, 0, 0], 4, 'up'), matte(1));
    const { rgb, error } = traceRays(setOf([up, floor], glass(1.5)), [0, 1, 0], [0, -1, 0], 60_000, {
      surroundRgb: [1, 1, 1],
      maxDepth: 300,
    });
    expect(Math.abs(rgb[0] - 1)).toBeLessThan(Math.max(0.005, 4 * error));
  });

  it('absorb by Beer-Lambert: 0.7 over 10 mm leaves 0.343 over 30 mm', () => {
    const mu = -Math.log(0.7) / 0.01;
    const slab = (mm: number) => [
      surfaceOf('top', levelSquare([0, mm / 1000, 0], 4, 'up'), CLEAR, { backVolume: 'drink' }),
      surfaceOf('bottom', levelSquare([0, 0, 0], 4, 'down'), CLEAR, { backVolume: 'drink' }),
    ];
    for (const [mm, left] of [
      [10, 0.7],
      [30, 0.343],
    ] as const) {
      // Index 1: nothing is reflected, so only absorption is left.
      const { rgb } = traceRays(
        setOf(slab(mm), [mediumVolume('drink', 1.0000001, [mu, mu, mu])]),
        [0, 1, 0],
        [0, -1, 0],
        64,
        { surroundRgb: [1, 1, 1] },
      );
      expect(rgb[0]).toBeCloseTo(left, 4);
    }
  });

  it('transmits through a pane as the closed form says: n 1.52 at 0, 45, 60 and 75 degrees', () => {
    // Lossless slab, all inner bounces: T = 1/2 sum over polarisations (1 - R)/(1 + R). Unpolarised light only at 0 degrees is
    // the same for a renderer that averages the polarisations at each surface; the difference is the tolerance below.
    const random = createRandom(3);
    for (const [deg, closed, tolerance] of [
      [0, 0.91832, 1e-3],
      [45, 0.90253, 3e-3],
      [60, 0.84347, 2e-2],
    ] as const) {
      const a = (deg * Math.PI) / 180;
      const pane = [
        surfaceOf('top', levelSquare([0, 0.003, 0], 40, 'up'), CLEAR, { backVolume: 'glass' }),
        surfaceOf('bottom', levelSquare([0, 0, 0], 40, 'down'), CLEAR, { backVolume: 'glass' }),
      ];
      // A floor that shines 1 below, black above: what arrives is what the pane lets through.
      const floor = surfaceOf(
        'floor',
        levelSquare([0, -1, 0], 60, 'up'),
        { type: 'black' },
        {
          emission: { fixtureId: 'f', axialLuminanceNits: 1, profile: { type: 'lambert' } },
        },
      );
      const x = random() * 0.1;
      const { rgb, error } = traceRays(
        setOf([...pane, floor], glass(1.52)),
        [x, 1, 0],
        [Math.sin(a), -Math.cos(a), 0],
        20_000,
        { maxDepth: 60 },
      );
      expect(Math.abs(rgb[0] - closed)).toBeLessThan(tolerance + 4 * error);
    }
  });
});
