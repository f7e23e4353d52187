import { describe, expect, it } from 'vitest';
import type { SetModel } from '../../src/scene/setModel.ts';
import { compileWorld, createPathTracer } from '../../src/transport/index.ts';
import { BLACK, levelSquare, matte, setOf, surfaceOf } from '../helpers/surfaces.ts';

/** A grey floor and a grey wall that meet at right angles, under a panel. */
const corner = (floorReflectance: number): SetModel =>
  setOf([
    surfaceOf('floor', levelSquare([0, 0, 0], 2, 'up'), matte(floorReflectance)),
    surfaceOf('wall', { type: 'quad', originM: [-1, 0, -1], edgeUM: [2, 0, 0], edgeVM: [0, 2, 0] }, matte(0.5)),
    surfaceOf('lamp', levelSquare([0, 1.5, 0], 0.4, 'down'), BLACK, {
      emission: { fixtureId: 'lamp', axialLuminanceNits: 1000, profile: { type: 'lambert' } },
    }),
  ]);

function wallNits(set: SetModel, bounceOnly: boolean, maxDepth: number): number {
  const world = compileWorld(set, { rawColour: true });
  const tracer = createPathTracer({
    world,
    view: {
      originM: [0, 0, 0],
      right: [1, 0, 0],
      up: [0, 1, 0],
      forward: [0, 0, -1],
      tanHalfWidth: 1,
      tanHalfHeight: 1,
      apertureRadiusM: 0,
      focusDistanceM: 1,
    },
    widthPx: 1,
    heightPx: 1,
    seed: 3,
    maxDepth,
    layerGains: Float32Array.of(1, 1, 1),
    bounceOnly,
  });
  let sum = 0;
  const samples = 8192;
  for (let i = 0; i < samples; i++) {
    tracer.traceRay(0, 0.5, 1, 0, 0, -1, 1, i);
    sum += tracer.sample[0];
  }
  return sum / samples;
}

describe('bounce-only view', () => {
  it('is what the whole has over its first bounce', () => {
    const whole = wallNits(corner(0.5), false, 20);
    const direct = wallNits(corner(0.5), false, 1);
    const bounced = wallNits(corner(0.5), true, 20);
    expect(bounced).toBeGreaterThan(0.05 * direct);
    expect((direct + bounced) / whole).toBeCloseTo(1, 2);
  });

  it('is all but empty beside a black floor: only what the wall gives back to itself by way of nothing', () => {
    expect(wallNits(corner(0), true, 20)).toBeLessThan(1e-6);
  });
});
