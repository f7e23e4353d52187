import { describe, expect, it } from 'vitest';
import { IDENTITY } from '../../src/core/rigid.ts';
import type { Shape } from '../../src/core/shape.ts';
import { cross, dot, sub } from '../../src/core/vec3.ts';
import { tessellate } from '../../src/scene/tessellate.ts';
import { trianglesOf } from './meshTools.ts';

const azimuth = { startRad: -Math.PI, endRad: -Math.PI / 2 };
const SHAPES: readonly (readonly [string, Shape])[] = [
  ['quad', { type: 'quad', originM: [0, 0, 0], edgeUM: [0.1, 0, 0], edgeVM: [0, 0.02, 0.1] }],
  ['cylinder walked up', { type: 'revolvedLine', r0M: 0.05, y0M: 0, r1M: 0.05, y1M: 0.1 }],
  ['cylinder walked down', { type: 'revolvedLine', r0M: 0.05, y0M: 0.1, r1M: 0.05, y1M: 0 }],
  ['disc', { type: 'revolvedLine', r0M: 0, y0M: 0, r1M: 0.05, y1M: 0 }],
  ['cone, part of a turn', { type: 'revolvedLine', r0M: 0.02, y0M: 0, r1M: 0.05, y1M: 0.1, azimuth }],
  [
    'ball',
    { type: 'revolvedArc', centreRM: 0, centreYM: 0, radiusM: 0.03, angle0Rad: -Math.PI / 2, angle1Rad: Math.PI / 2 },
  ],
  [
    'hollow fillet',
    { type: 'revolvedArc', centreRM: 0.05, centreYM: 0, radiusM: 0.01, angle0Rad: 0, angle1Rad: -Math.PI / 2 },
  ],
  [
    'long side of a flute',
    { type: 'revolvedArc', centreRM: -0.2, centreYM: 0, radiusM: 0.23, angle0Rad: -0.3, angle1Rad: 0.2 },
  ],
];

describe('triangles of a shape', () => {
  it.each(SHAPES)('%s: wound counter-clockwise seen from the front', (_, shape) => {
    const triangles = trianglesOf([{ shape, worldFromLocal: IDENTITY }]);
    expect(triangles.length).toBeGreaterThan(0);
    for (const t of triangles) expect(dot(cross(sub(t.b, t.a), sub(t.c, t.a)), t.normal)).toBeGreaterThan(0);
  });

  // Right hand of the walk: up the outside faces out, down it faces the axis, out along the bottom faces down.
  it.each([
    ['cylinder walked up', [1, 0, 0]],
    ['cylinder walked down', [-1, 0, 0]],
    ['disc', [0, -1, 0]],
    ['hollow fillet', [-1, 0, 0]],
  ] as const)('%s: its first normal is %s', (name, normal) => {
    const shape = SHAPES.find(([n]) => n === name)?.[1];
    if (!shape) throw new Error('named above');
    const n = tessellate(shape).normals;
    normal.forEach((v, k) => {
      expect(n[k]).toBeCloseTo(v, 6);
    });
  });

  it('get finer on request: 16 sides of a cylinder are 32 triangles, 128 sides are 256', () => {
    const shape: Shape = { type: 'revolvedLine', r0M: 0.05, y0M: 0, r1M: 0.05, y1M: 0.1 };
    expect(tessellate(shape, { turnStepRad: Math.PI / 8 }).indices.length / 3).toBe(32);
    expect(tessellate(shape, { turnStepRad: Math.PI / 64 }).indices.length / 3).toBe(256);
  });

  it('of a mesh are its own, with smooth normals where it has none', () => {
    const mesh = tessellate({
      type: 'mesh',
      positionsM: Float32Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0),
      indices: Uint32Array.of(0, 1, 2),
    });
    expect([...mesh.normals]).toEqual([0, 0, 1, 0, 0, 1, 0, 0, 1]);
  });
});
