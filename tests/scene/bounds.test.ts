import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyToPoint, fromAim, IDENTITY, type RigidTransform } from '../../src/core/rigid.ts';
import type { Shape } from '../../src/core/shape.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import { boundsOfPoints, boundsOfShape } from '../../src/scene/bounds.ts';

const unit = fc.double({ min: -1, max: 1, noNaN: true });
const anyPlacement = fc.tuple(unit, unit, unit, unit).map(([x, y, z, roll]): RigidTransform => {
  return fromAim([x, y, z], [x + 0.3 + y, y - x, z + roll], roll * 3);
});
const azimuth = fc.option(
  fc
    .tuple(fc.double({ min: -4, max: 4, noNaN: true }), fc.double({ min: 0.1, max: 2 * Math.PI, noNaN: true }))
    .map(([startRad, span]) => ({ startRad, endRad: startRad + span })),
  { nil: undefined },
);
const radius = fc.double({ min: 0, max: 0.1, noNaN: true });
const anyTurned = fc.oneof(
  fc
    .tuple(radius, unit, radius, unit, azimuth)
    .map(([r0M, y0M, r1M, y1M, az]): Shape => ({ type: 'revolvedLine', r0M, y0M, r1M, y1M, azimuth: az })),
  fc
    .tuple(
      radius,
      unit,
      fc.double({ min: 0.05, max: 0.3, noNaN: true }),
      fc.double({ min: -1.5, max: 1.4, noNaN: true }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      azimuth,
    )
    .map(
      ([centreRM, centreYM, radiusM, angle0Rad, share, az]): Shape => ({
        type: 'revolvedArc',
        centreRM,
        centreYM,
        radiusM,
        angle0Rad,
        angle1Rad: angle0Rad + (Math.PI / 2 - angle0Rad) * share,
        azimuth: az,
      }),
    ),
);

/** Points of a turned shape on a grid of n + 1 profile points by 4 n azimuths, straight from its definition. */
function samplePoints(shape: Shape, n: number): Vec3[] {
  if (shape.type !== 'revolvedLine' && shape.type !== 'revolvedArc') throw new Error('turned shapes only');
  const { startRad, endRad } = shape.azimuth ?? { startRad: 0, endRad: 2 * Math.PI };
  const points: Vec3[] = [];
  for (let i = 0; i <= n; i++) {
    const t = i / n;
    const a = shape.type === 'revolvedArc' ? shape.angle0Rad + (shape.angle1Rad - shape.angle0Rad) * t : 0;
    const r =
      shape.type === 'revolvedArc'
        ? shape.centreRM + shape.radiusM * Math.cos(a)
        : shape.r0M + (shape.r1M - shape.r0M) * t;
    const y =
      shape.type === 'revolvedArc'
        ? shape.centreYM + shape.radiusM * Math.sin(a)
        : shape.y0M + (shape.y1M - shape.y0M) * t;
    for (let j = 0; j <= 4 * n; j++) {
      const phi = startRad + ((endRad - startRad) * j) / (4 * n);
      points.push([r * Math.cos(phi), y, r * Math.sin(phi)]);
    }
  }
  return points;
}

describe('bounds of a turned shape', () => {
  it('hold every point of it and touch the outermost, turned any way, parts of turns too', () => {
    fc.assert(
      fc.property(anyTurned, anyPlacement, (shape, worldFromLocal) => {
        const exact = boundsOfShape({ shape, worldFromLocal });
        const n = 60;
        const sampled = boundsOfPoints(samplePoints(shape, n).map((p) => applyToPoint(worldFromLocal, p)));
        // A grid of 240 turns and 60 arc steps misses an extreme by at most r (1 - cos of half a step), twice.
        const slackM = 0.4 * (1 - Math.cos(Math.PI / (4 * n))) + 0.4 * (1 - Math.cos(Math.PI / n));
        for (let k = 0; k < 3; k++) {
          expect(sampled.minM[k]).toBeGreaterThanOrEqual(exact.minM[k] - 1e-12);
          expect(sampled.maxM[k]).toBeLessThanOrEqual(exact.maxM[k] + 1e-12);
          expect(sampled.minM[k] - exact.minM[k]).toBeLessThan(slackM);
          expect(exact.maxM[k] - sampled.maxM[k]).toBeLessThan(slackM);
        }
      }),
      { seed: 41, numRuns: 150 },
    );
  });

  it('give a quarter of a 50 mm cylinder a box of 50 x 100 x 50 mm, not of the whole cylinder', () => {
    const { minM, maxM } = boundsOfShape({
      shape: {
        type: 'revolvedLine',
        r0M: 0.05,
        y0M: 0,
        r1M: 0.05,
        y1M: 0.1,
        azimuth: { startRad: 0, endRad: Math.PI / 2 },
      },
      worldFromLocal: IDENTITY,
    });
    expect(minM.map((v) => Math.round(v * 1e12) / 1e12 + 0)).toEqual([0, 0, 0]);
    expect(maxM).toEqual([0.05, 0.1, 0.05]);
  });
});

describe('bounds of a quad and a mesh', () => {
  it('are those of their corners', () => {
    const quad = boundsOfShape({
      shape: { type: 'quad', originM: [1, 2, 3], edgeUM: [1, 0, 0], edgeVM: [0, 0, -2] },
      worldFromLocal: IDENTITY,
    });
    expect(quad).toEqual({ minM: [1, 2, 1], maxM: [2, 2, 3] });
    const mesh = boundsOfShape({
      shape: {
        type: 'mesh',
        positionsM: Float32Array.of(0, 0, 0, 1, 0, 0, 0, 2, 0, 9, 9, 9),
        indices: Uint32Array.of(0, 1, 2),
      },
      worldFromLocal: IDENTITY,
    });
    expect(mesh).toEqual({ minM: [0, 0, 0], maxM: [1, 2, 0] });
  });
});
