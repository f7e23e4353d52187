import { invariant } from '../../core/result.ts';
import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import type { Shape } from '../../core/shape.ts';
import { add, cross, length, scale, type Vec3 } from '../../core/vec3.ts';
import type { EmissionProfile, OpticalSurface } from '../../materials/surface.ts';
import type { EmitterInfo } from '../contracts.ts';
import { ProfileKind } from '../layout/schema.ts';

/** Area, place and profile of one emitting surface. */
export function describeEmitter(surface: OpticalSurface, surfaceIndex: number, layerIndex: number): EmitterInfo {
  const { emission, shape, worldFromLocal } = surface;
  invariant(emission, () => `${surface.recordId} does not emit`);
  const local = placeOf(shape);
  return {
    surfaceIndex,
    fixtureId: emission.fixtureId,
    layerIndex,
    axialLuminanceNits: emission.axialLuminanceNits,
    profile: emission.profile,
    areaM2: areaOfShape(shape),
    centreM: applyToPoint(worldFromLocal, local.centre),
    normal: applyToDirection(worldFromLocal, local.normal),
  };
}

/** One-sided area of an exact shape, m2. */
export function areaOfShape(shape: Shape): number {
  switch (shape.type) {
    case 'quad':
      return length(cross(shape.edgeUM, shape.edgeVM));
    case 'revolvedLine': {
      const turn = shape.azimuth ? shape.azimuth.endRad - shape.azimuth.startRad : 2 * Math.PI;
      return (turn * (shape.r0M + shape.r1M) * Math.hypot(shape.r1M - shape.r0M, shape.y1M - shape.y0M)) / 2;
    }
    case 'revolvedArc': {
      // Pappus: turn x arc length x mean radius.
      const turn = shape.azimuth ? shape.azimuth.endRad - shape.azimuth.startRad : 2 * Math.PI;
      const a0 = Math.min(shape.angle0Rad, shape.angle1Rad);
      const a1 = Math.max(shape.angle0Rad, shape.angle1Rad);
      return turn * shape.radiusM * (shape.centreRM * (a1 - a0) + shape.radiusM * (Math.sin(a1) - Math.sin(a0)));
    }
    case 'mesh':
      throw new Error('A mesh has no closed-form area here: emitters are quads and turned pieces.');
  }
}

function placeOf(shape: Shape): { centre: Vec3; normal: Vec3 } {
  switch (shape.type) {
    case 'quad': {
      const n = cross(shape.edgeUM, shape.edgeVM);
      return {
        centre: add(shape.originM, scale(add(shape.edgeUM, shape.edgeVM), 0.5)),
        normal: scale(n, 1 / length(n)),
      };
    }
    case 'revolvedLine': {
      const flat = Math.abs(shape.y1M - shape.y0M) < 1e-9;
      return {
        centre: [0, (shape.y0M + shape.y1M) / 2, 0],
        normal: flat ? [0, Math.sign(shape.r0M - shape.r1M), 0] : [0, 0, 0],
      };
    }
    case 'revolvedArc':
      return { centre: [0, shape.centreYM, 0], normal: [0, 0, 0] };
    case 'mesh':
      return { centre: [0, 0, 0], normal: [0, 0, 0] };
  }
}

/** Profile as three words; a table is appended to the shared profile words. */
export function profileKindOf(profile: EmissionProfile, profileWords: number[]): [number, number, number] {
  switch (profile.type) {
    case 'lambert':
      return [ProfileKind.lambert, 0, 0];
    case 'cosPower':
      return [ProfileKind.cosPower, profile.exponent - 1, 0];
    case 'table': {
      const at = profileWords.length;
      profileWords.push(...profile.relativeLuminance);
      return [ProfileKind.table, at, profile.relativeLuminance.length];
    }
    case 'measured': {
      const { rotation, thetaCount, phiCount, relativeLuminance } = profile;
      invariant(
        relativeLuminance.length === thetaCount * phiCount && thetaCount > 1 && phiCount > 1,
        () => `measured profile has ${relativeLuminance.length} values for ${thetaCount} x ${phiCount} angles`,
      );
      const at = profileWords.length;
      profileWords.push(...rotation, thetaCount, phiCount, ...relativeLuminance);
      return [ProfileKind.measured, at, 0];
    }
  }
}

/** One EMITTER record. */
export const emitterWords = (e: EmitterInfo, primitive: number, profile: [number, number, number]): number[] => [
  primitive,
  e.layerIndex,
  e.axialLuminanceNits,
  e.areaM2,
  ...profile,
];
