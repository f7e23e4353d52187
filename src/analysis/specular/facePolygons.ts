import { applyToDirection, applyToPoint } from '../../core/rigid.ts';
import { add, addScaled, cross, dot, normalize, orthonormalBasis, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { flatOutline } from './planarMirrors.ts';

const RIM_POINTS = 16;

/**
 * Outline of a shining surface as the eye sees it: flat ones as they are (nothing when the eye is behind a one-sided
 * face), a bulb as the disc of its silhouette, a tube as the rectangle of its silhouette. World, metres.
 */
export function facePolygon(surface: OpticalSurface, eyeM: Vec3, twoSided: boolean): Vec3[] {
  const flat = flatOutline(surface);
  if (flat) {
    const normal = cross(sub(flat[1], flat[0]), sub(flat[2], flat[1]));
    return twoSided || dot(normal, sub(eyeM, flat[0])) > 0 ? flat : [];
  }
  const { shape, worldFromLocal } = surface;
  if (shape.type === 'revolvedArc' && shape.centreRM === 0) {
    const centreM = applyToPoint(worldFromLocal, [0, shape.centreYM, 0]);
    return silhouetteDisc(centreM, shape.radiusM, eyeM);
  }
  if (shape.type === 'revolvedLine') {
    const radiusM = Math.max(shape.r0M, shape.r1M);
    const [a, b] = [applyToPoint(worldFromLocal, [0, shape.y0M, 0]), applyToPoint(worldFromLocal, [0, shape.y1M, 0])];
    const axis = applyToDirection(worldFromLocal, [0, 1, 0]);
    const across = scale(normalize(cross(axis, sub(eyeM, scale(add(a, b), 0.5)))), radiusM);
    return [sub(a, across), add(a, across), add(b, across), sub(b, across)];
  }
  return [];
}

function silhouetteDisc(centreM: Vec3, radiusM: number, eyeM: Vec3): Vec3[] {
  const away = sub(eyeM, centreM);
  const distanceM = Math.sqrt(dot(away, away));
  if (distanceM <= radiusM) return [];
  const { tangent, bitangent } = orthonormalBasis(normalize(away));
  // The cone that touches the sphere, cut through its centre.
  const seenM = (radiusM * distanceM) / Math.sqrt(distanceM ** 2 - radiusM ** 2);
  return Array.from({ length: RIM_POINTS }, (_, i) => {
    const angle = (2 * Math.PI * i) / RIM_POINTS;
    return addScaled(addScaled(centreM, tangent, seenM * Math.cos(angle)), bitangent, seenM * Math.sin(angle));
  });
}
