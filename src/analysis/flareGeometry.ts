import { projectPoint } from '../camera/projection.ts';
import type { CameraView } from '../camera/view.ts';
import { addScaled, dot, normalize, sub, type Vec3 } from '../core/vec3.ts';
import type { FrameLight, LightSource } from './light/frameLight.ts';

/** How the front element and the frame see one fixture. */
export interface LensLight {
  /** Illuminance on the front element from what lies outside the frame, lx under the gains, things in the way counted. */
  readonly outsideLux: number;
  /** The same with nothing in the way. */
  readonly openOutsideLux: number;
  /** `outsideLux / openOutsideLux`: part of the front element that sees the fixture, weighted by light; 0 without any. */
  readonly share: number;
  /** Mean luminance of what the frame sees of it straight on, cd/m2 under the gains; 0 when nothing. */
  readonly inFrameNits: number;
  /** Points on the emitter that the frame sees, and points outside it that light the front element. */
  readonly inFramePointsM: readonly Vec3[];
  readonly outsidePointsM: readonly Vec3[];
}

/** Points that spread evenly over a disc of radius 1 (golden-angle spiral, equal areas). */
export const discPoints = (count: number): readonly (readonly [number, number])[] =>
  Array.from({ length: count }, (_, i) => {
    const radius = Math.sqrt((i + 0.5) / count);
    const angle = i * Math.PI * (3 - Math.sqrt(5));
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

/** The front element as points, world, metres: a disc at the lens, facing ahead. */
export const frontElementPoints = (view: CameraView, diameterM: number, count: number): Vec3[] =>
  discPoints(count).map(([x, y]) =>
    addScaled(addScaled(view.originM, view.right, (x * diameterM) / 2), view.up, (y * diameterM) / 2),
  );

/**
 * Light of one fixture on the front element, by a sum over points of its emitters and of the element:
 * E = mean over the element of sum L cos(emitter) cos(lens) area / distance^2, blocked pairs left out. Clear glass lets
 * light through. Only light from ahead of the lens counts.
 */
export function measureLensLight(
  light: FrameLight,
  view: CameraView,
  sources: readonly LightSource[],
  elementM: readonly Vec3[],
): LensLight {
  let outside = 0;
  let openOutside = 0;
  let seenNits = 0;
  let seenArea = 0;
  const inFramePointsM: Vec3[] = [];
  const outsidePointsM: Vec3[] = [];
  for (const source of sources) {
    const samples = light.samplesOf(source, sources.length > 8 ? 1 : sources.length > 1 ? 3 : 6);
    samples.pointsM.forEach((pointM, i) => {
      const normal = samples.normals[i];
      const toLens = normalize(sub(view.originM, pointM));
      const inFrame = isInFrame(view, pointM);
      if (inFrame) {
        const nits = light.query.emittedNits(source.emitterIndex, normal, toLens) * source.luminanceGain;
        if (nits <= 0 || light.query.blocked(view.originM, pointM)) return;
        const seen = samples.areaEachM2 * Math.max(0, dot(normal, toLens));
        seenNits += nits * seen;
        seenArea += seen;
        inFramePointsM.push(pointM);
        return;
      }
      let lit = false;
      for (const elementPointM of elementM) {
        const d = sub(pointM, elementPointM);
        const squared = dot(d, d);
        const distanceM = Math.sqrt(squared);
        const cosLens = dot(d, view.forward) / distanceM;
        const cosEmitter = -dot(d, normal) / distanceM;
        if (cosLens <= 0 || cosEmitter <= 0) continue;
        const direction: Vec3 = [-d[0] / distanceM, -d[1] / distanceM, -d[2] / distanceM];
        const nits = light.query.emittedNits(source.emitterIndex, normal, direction) * source.luminanceGain;
        const lux = (nits * cosLens * cosEmitter * samples.areaEachM2) / squared / elementM.length;
        if (lux <= 0) continue;
        openOutside += lux;
        if (light.query.blocked(elementPointM, pointM)) continue;
        outside += lux;
        lit = true;
      }
      if (lit) outsidePointsM.push(pointM);
    });
  }
  return {
    outsideLux: outside,
    openOutsideLux: openOutside,
    share: openOutside > 0 ? outside / openOutside : 0,
    inFrameNits: seenArea > 0 ? seenNits / seenArea : 0,
    inFramePointsM,
    outsidePointsM,
  };
}

export const isInFrame = (view: CameraView, pointM: Vec3): boolean => {
  const at = projectPoint(view, pointM);
  return at !== null && at.u >= 0 && at.u <= 1 && at.v >= 0 && at.v <= 1;
};

/** Angle of a point from the lens axis, radians. */
export const angleFromAxisRad = (view: CameraView, pointM: Vec3): number =>
  Math.acos(Math.min(1, Math.max(-1, dot(normalize(sub(pointM, view.originM)), view.forward))));
