import { addScaled, dot, length, orthonormalBasis, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { EmitterSamples, FrameLight, LightSource, PictureSource } from './frameLight.ts';

/** How a receiver weighs light by the cosine of its angle to the receiver's axis (-1..1); never negative. */
export type Response = (cosTheta: number) => number;

/** A flat receiver (CIE illuminance on a plane). */
export const planeResponse: Response = (cosTheta) => Math.max(0, cosTheta);
/** The other side of a flat receiver. */
export const backResponse: Response = (cosTheta) => (cosTheta < 0 ? -cosTheta : 0);
/** Hemispherical dome, taken as a cardioid: full on the axis, half from the side, nothing from behind. */
export const domeResponse: Response = (cosTheta) => (1 + cosTheta) / 2;

/** A receptor in place: unit normal or axis, and how it weighs. */
export interface Receiver {
  readonly axis: Vec3;
  readonly response: Response;
}

/**
 * Illuminance from one emitter at full output on each receiver, lx, by midpoint quadrature over equal areas:
 * sum of L x response(cos at the receiver) x cos at the emitter x area / distance^2, blocked points left out.
 *
 * @param ignore surfaces that cast no shadow
 */
export function gatherReceivers(
  light: FrameLight,
  source: LightSource,
  samples: EmitterSamples,
  pointM: Vec3,
  receivers: readonly Receiver[],
  ignore?: (surfaceIndex: number) => boolean,
): Float64Array {
  const { query } = light;
  const sums = new Float64Array(receivers.length);
  const weights = new Float64Array(receivers.length);
  for (let i = 0; i < samples.pointsM.length; i++) {
    const s = samples.pointsM[i];
    const n = samples.normals[i];
    const dx = s[0] - pointM[0];
    const dy = s[1] - pointM[1];
    const dz = s[2] - pointM[2];
    const squared = dx * dx + dy * dy + dz * dz;
    if (squared < 1e-12) continue;
    const inverse = 1 / Math.sqrt(squared);
    const cosEmitter = -(dx * n[0] + dy * n[1] + dz * n[2]) * inverse;
    if (cosEmitter <= 0) continue;
    let any = 0;
    for (let k = 0; k < receivers.length; k++) {
      const { axis, response } = receivers[k];
      weights[k] = response((dx * axis[0] + dy * axis[1] + dz * axis[2]) * inverse);
      any += weights[k];
    }
    if (any <= 0) continue;
    const nits = query.emittedNits(source.emitterIndex, n, [-dx * inverse, -dy * inverse, -dz * inverse]);
    if (nits <= 0 || query.blocked(pointM, s, ignore)) continue;
    const flux = (nits * cosEmitter * samples.areaEachM2) / squared;
    for (let k = 0; k < receivers.length; k++) sums[k] += flux * weights[k];
  }
  return sums;
}

/**
 * The same from a bulb, over directions evenly spread in the cone that it fills: exact for any distance, and smooth where a
 * grid over the whole bulb has an edge that moves with the point. Null from inside it.
 */
export function gatherCone(
  { query }: FrameLight,
  { emitter, emitterIndex, sphereRadiusM: radiusM }: LightSource,
  perSide: number,
  pointM: Vec3,
  receivers: readonly Receiver[],
  ignore?: (surfaceIndex: number) => boolean,
): Float64Array | null {
  const toCentre = sub(emitter.centreM, pointM);
  const distanceM = length(toCentre);
  if (distanceM <= radiusM) return null;
  const middle = scale(toCentre, 1 / distanceM);
  const { tangent, bitangent } = orthonormalBasis(middle);
  const sums = new Float64Array(receivers.length);
  const cosEdge = Math.sqrt(1 - (radiusM / distanceM) ** 2);
  const solidAngle = (2 * Math.PI * (1 - cosEdge)) / (perSide * perSide);
  for (let i = 0; i < perSide; i++) {
    const cos = 1 - ((i + 0.5) / perSide) * (1 - cosEdge);
    const sin = Math.sqrt(1 - cos * cos);
    const alongM = distanceM * cos - Math.sqrt(Math.max(0, radiusM * radiusM - (distanceM * sin) ** 2));
    for (let j = 0; j < perSide; j++) {
      const turn = (2 * Math.PI * (j + 0.5)) / perSide;
      const sideways = addScaled(scale(tangent, Math.cos(turn)), bitangent, Math.sin(turn));
      const d = addScaled(scale(middle, cos), sideways, sin);
      const weights = receivers.map(({ axis, response }) => response(dot(d, axis)));
      if (!weights.some((weight) => weight > 0)) continue;
      const onBulbM = addScaled(pointM, d, alongM);
      const normal = scale(sub(onBulbM, emitter.centreM), 1 / radiusM);
      const nits = query.emittedNits(emitterIndex, normal, [-d[0], -d[1], -d[2]]);
      if (nits <= 0 || query.blocked(pointM, onBulbM, ignore)) continue;
      for (let k = 0; k < sums.length; k++) sums[k] += nits * solidAngle * weights[k];
    }
  }
  return sums;
}

/** {@link gatherReceivers} for one receiver. */
export const gatherSamples = (
  light: FrameLight,
  source: LightSource,
  samples: EmitterSamples,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
): number => gatherReceivers(light, source, samples, pointM, [{ axis, response }])[0];

/** Picture-grade illuminance at full output from one source, lx: few points, within a few percent. */
export function gatherForPicture(
  light: FrameLight,
  { source, samples }: PictureSource,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
): number {
  if (samples) return gatherSamples(light, source, samples, pointM, axis, response);
  if (source.sphereRadiusM > 0) {
    const lux = gatherSphere(light, source, source.sphereRadiusM, pointM, axis, response);
    if (lux >= 0) return lux;
  }
  const perSide = perSideForPicture(source, pointM);
  return gatherSamples(light, source, light.samplesOf(source, perSide), pointM, axis, response);
}

/** A sphere as one point: E = pi L (r/D)^2 x response, with one shadow ray to its near side; -1 where it is too near. */
function gatherSphere(
  light: FrameLight,
  source: LightSource,
  radiusM: number,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
): number {
  const c = source.emitter.centreM;
  const dx = pointM[0] - c[0];
  const dy = pointM[1] - c[1];
  const dz = pointM[2] - c[2];
  const distanceM = Math.sqrt(dx * dx + dy * dy + dz * dz);
  if (distanceM < NEAR_SPHERE_RADII * radiusM) return -1;
  const out: Vec3 = [dx / distanceM, dy / distanceM, dz / distanceM];
  const weight = response(-(out[0] * axis[0] + out[1] * axis[1] + out[2] * axis[2]));
  if (weight <= 0) return 0;
  const near: Vec3 = [c[0] + out[0] * radiusM, c[1] + out[1] * radiusM, c[2] + out[2] * radiusM];
  if (light.query.blocked(pointM, near)) return 0;
  const nits = light.query.emittedNits(source.emitterIndex, out, out);
  return nits * Math.PI * (radiusM / distanceM) ** 2 * weight;
}

/** Nearer than this to a sphere's middle its shape counts. */
const NEAR_SPHERE_RADII = 4;

/** Points per side that keep a picture-grade estimate within a few percent: by the emitter's size over its distance. */
export function perSideForPicture(source: LightSource, pointM: Vec3): number {
  const c = source.emitter.centreM;
  const distanceM = Math.hypot(c[0] - pointM[0], c[1] - pointM[1], c[2] - pointM[2]);
  const ratio = source.sizeM / (distanceM + 1e-6);
  return Math.max(source.fewestPerSide, ratio < 0.12 ? 1 : ratio < 0.4 ? 2 : ratio < 1.5 ? 3 : 5);
}
