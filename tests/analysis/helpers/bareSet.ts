import { type CheckInput, DEFAULT_LIMITS } from '../../../src/analysis/index.ts';
import { cameraView } from '../../../src/camera/projection.ts';
import { IDENTITY } from '../../../src/core/rigid.ts';
import type { Vec3 } from '../../../src/core/vec3.ts';
import type { OpticalSurface, Volume } from '../../../src/materials/surface.ts';
import { compileWorld } from '../../../src/transport/compile/compileWorld.ts';
import { createRayQuery } from '../../../src/transport/cpu/rayQuery.ts';
import { camera, scene } from './scenes.ts';

/** A set of given surfaces without any record behind it; every emitter belongs to layer 'lamp' at gain 1. */
export function bareInput(
  surfaces: readonly OpticalSurface[],
  volumes: readonly Volume[] = [],
  cameraPatch: Record<string, unknown> = {},
): CheckInput {
  const set = { surfaces, volumes, layerFixtureIds: ['lamp'], boundsByRecord: new Map(), diagnostics: [] };
  const record = camera(cameraPatch);
  return {
    scene: scene({ pieces: [], fixtures: [], camera: record }),
    set,
    query: createRayQuery(compileWorld(set)),
    view: cameraView(record),
    layerGains: new Float32Array([1, 1, 1]),
    limits: DEFAULT_LIMITS,
  };
}

const BLACK = { type: 'black' } as const;

/** A Lambertian rectangle of luminance `luminanceNits` that faces edgeU x edgeV. */
export const glowingQuad = (originM: Vec3, edgeUM: Vec3, edgeVM: Vec3, luminanceNits: number): OpticalSurface => ({
  recordId: 'lamp',
  role: 'emitting face',
  shape: { type: 'quad', originM, edgeUM, edgeVM },
  worldFromLocal: IDENTITY,
  finish: BLACK,
  emission: { fixtureId: 'lamp', axialLuminanceNits: luminanceNits, profile: { type: 'lambert' } },
});

/** A Lambertian disc of luminance `luminanceNits` about (0, heightM, 0) that faces down. */
export const glowingDiscAbove = (heightM: number, radiusM: number, luminanceNits: number): OpticalSurface => ({
  recordId: 'lamp',
  role: 'emitting face',
  shape: { type: 'revolvedLine', r0M: 0, y0M: heightM, r1M: radiusM, y1M: heightM },
  worldFromLocal: IDENTITY,
  finish: BLACK,
  emission: { fixtureId: 'lamp', axialLuminanceNits: luminanceNits, profile: { type: 'lambert' } },
});

export const quad = (recordId: string, originM: Vec3, edgeUM: Vec3, edgeVM: Vec3, rest: Partial<OpticalSurface>) => ({
  recordId,
  role: 'face',
  shape: { type: 'quad', originM, edgeUM, edgeVM } as const,
  worldFromLocal: IDENTITY,
  finish: BLACK,
  ...rest,
});

/** A slab of a medium between z = 0 and z = -thicknessM, 4 m square, fronts outward. */
export const slab = (volumeId: string, thicknessM: number, otherVolume?: string): OpticalSurface[] => [
  quad('slab', [-2, -2, 0], [4, 0, 0], [0, 4, 0], {
    finish: { type: 'clear', roughness: 0 },
    backVolume: volumeId,
    ...(otherVolume ? { frontVolume: otherVolume } : {}),
  }),
  quad('slab', [2, -2, -thicknessM], [-4, 0, 0], [0, 4, 0], {
    finish: { type: 'clear', roughness: 0 },
    backVolume: volumeId,
  }),
];
