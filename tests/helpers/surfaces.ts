import { IDENTITY, type RigidTransform } from '../../src/core/rigid.ts';
import type { Shape } from '../../src/core/shape.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import type { Finish } from '../../src/materials/finish.ts';
import type { OpticalSurface, Volume } from '../../src/materials/surface.ts';
import type { SetModel } from '../../src/scene/setModel.ts';

/** A set out of loose surfaces, for tests of the tracer. */
export const setOf = (surfaces: readonly OpticalSurface[], volumes: readonly Volume[] = []): SetModel => ({
  surfaces,
  volumes,
  layerFixtureIds: [...new Set(surfaces.flatMap((s) => (s.emission ? [s.emission.fixtureId] : [])))],
  boundsByRecord: new Map(),
  diagnostics: [],
});

export const surfaceOf = (
  recordId: string,
  shape: Shape,
  finish: Finish,
  extra: Partial<OpticalSurface> = {},
  worldFromLocal: RigidTransform = IDENTITY,
): OpticalSurface => ({ recordId, role: recordId, shape, worldFromLocal, finish, ...extra });

export const matte = (reflectance: number): Finish => ({
  type: 'matte',
  reflectanceRgb: [reflectance, reflectance, reflectance],
});
export const CLEAR: Finish = { type: 'clear', roughness: 0 };
export const BLACK: Finish = { type: 'black' };

/** Level square of a side about a centre, facing up or down. */
export const levelSquare = (centreM: Vec3, sideM: number, faces: 'up' | 'down'): Shape => ({
  type: 'quad',
  originM: [centreM[0] - sideM / 2, centreM[1], centreM[2] + (faces === 'up' ? sideM / 2 : -sideM / 2)],
  edgeUM: [sideM, 0, 0],
  edgeVM: [0, 0, faces === 'up' ? -sideM : sideM],
});

export const sphereShape = (radiusM: number): Shape => ({
  type: 'revolvedArc',
  centreRM: 0,
  centreYM: 0,
  radiusM,
  angle0Rad: -Math.PI / 2,
  angle1Rad: Math.PI / 2,
});

/** Closed upright cylinder about the y axis, normals outward. */
export const cylinderShapes = (radiusM: number, y0M: number, y1M: number): Shape[] => [
  { type: 'revolvedLine', r0M: 0, y0M, r1M: radiusM, y1M: y0M },
  { type: 'revolvedLine', r0M: radiusM, y0M, r1M: radiusM, y1M },
  { type: 'revolvedLine', r0M: radiusM, y0M: y1M, r1M: 0, y1M },
];

export const mediumVolume = (id: string, index: number, absorptionPerM: Vec3 = [0, 0, 0], priority = 10): Volume => ({
  id,
  recordId: id,
  medium: { index, absorptionPerM },
  priority,
});
