import { luminanceFromRec2020 } from '../../core/color/spaces.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { KeptSide } from '../keep/keptPlaces.ts';
import { type BouncePatch, gatherPatches } from './bouncePatch.ts';
import type { FrameLight, LightSource, PictureSource } from './frameLight.ts';
import { gatherForPicture, gatherReceivers, planeResponse, type Response } from './gatherSource.ts';

/** Points per side where an emitter is partly hidden. */
const PARTLY_SEEN_PER_SIDE = 8;

export interface GatherAccurateOptions {
  /** On the side of the normal when left out. */
  readonly response?: Response;
  /** Surfaces that cast no shadow. */
  readonly ignore?: (surface: number) => boolean;
  /** What was found at this very place before, for the same response. */
  readonly kept?: KeptSide;
}

/**
 * Illuminance on a plane by film layer under the gains, lx, good to about a hundredth: a few points over each emitter, and
 * many where some are hidden and some are not.
 *
 * @param into layers; added to
 */
export function gatherAccurate(
  light: FrameLight,
  patches: readonly BouncePatch[],
  pointM: Vec3,
  normal: Vec3,
  into: Float64Array,
  { response = planeResponse, ignore, kept }: GatherAccurateOptions = {},
): void {
  for (const picture of light.pictureSources) {
    const { emitter, emitterIndex, luminanceGain } = picture.source;
    let lux = kept ? kept.lux[emitterIndex] : Number.NaN;
    if (Number.isNaN(lux)) {
      lux = sourceLux(light, picture, pointM, normal, response, ignore);
      if (kept) kept.lux[emitterIndex] = lux;
    }
    into[emitter.layerIndex] += lux * luminanceGain;
  }
  if (patches.length === 0) return;
  const bounced = new Float64Array(light.layerCount * 3);
  gatherPatches(light, patches, pointM, normal, response, bounced, { ignore, reach: kept?.reach });
  for (let layer = 0; layer < light.layerCount; layer++) {
    const at = layer * 3;
    into[layer] += luminanceFromRec2020([bounced[at], bounced[at + 1], bounced[at + 2]]);
  }
}

function sourceLux(
  light: FrameLight,
  picture: PictureSource,
  pointM: Vec3,
  normal: Vec3,
  response: Response,
  ignore: ((surface: number) => boolean) | undefined,
): number {
  const { source, samples } = picture;
  if (samples) return gatherReceivers(light, source, samples, pointM, [{ axis: normal, response }], ignore)[0];
  if (source.sphereRadiusM > 0 && !ignore) return gatherForPicture(light, picture, pointM, normal, response);
  const perSide = fewPerSide(source, pointM);
  const { pointsM, normals, areaEachM2 } = light.samplesOf(source, perSide);
  let sum = 0;
  let seen = 0;
  let hidden = 0;
  for (let i = 0; i < pointsM.length; i++) {
    const [p, n] = [pointsM[i], normals[i]];
    const dx = p[0] - pointM[0];
    const dy = p[1] - pointM[1];
    const dz = p[2] - pointM[2];
    const squared = dx * dx + dy * dy + dz * dz;
    const inverse = 1 / Math.sqrt(squared);
    const cosEmitter = -(dx * n[0] + dy * n[1] + dz * n[2]) * inverse;
    const weight = response((dx * normal[0] + dy * normal[1] + dz * normal[2]) * inverse);
    if (cosEmitter <= 0 || weight <= 0) continue;
    const nits = light.query.emittedNits(source.emitterIndex, n, [-dx * inverse, -dy * inverse, -dz * inverse]);
    if (nits <= 0) continue;
    if (light.query.blocked(pointM, p, ignore)) {
      hidden++;
      continue;
    }
    seen++;
    sum += (nits * weight * cosEmitter * areaEachM2) / squared;
  }
  if (hidden === 0 || seen === 0 || perSide >= PARTLY_SEEN_PER_SIDE) return sum;
  const fine = light.samplesOf(source, PARTLY_SEEN_PER_SIDE);
  return gatherReceivers(light, source, fine, pointM, [{ axis: normal, response }], ignore)[0];
}

function fewPerSide(source: LightSource, pointM: Vec3): number {
  const c = source.emitter.centreM;
  const distanceM = Math.hypot(c[0] - pointM[0], c[1] - pointM[1], c[2] - pointM[2]);
  const ratio = source.sizeM / (distanceM + 1e-6);
  return Math.max(source.fewestPerSide, ratio < 0.12 ? 2 : ratio < 0.4 ? 3 : ratio < 1 ? 4 : 6);
}
