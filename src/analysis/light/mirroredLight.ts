import { cross, dot, length, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import { dielectricReflectance } from '../../transport/kernels/microfacet.ts';
import type { CheckInput } from '../contracts.ts';
import { mirrorImagePoint, planeDistanceM } from '../specular/mirrorImage.ts';
import { planarMirrors } from '../specular/planarMirrors.ts';
import { SurfaceKind, type SurfaceTable } from '../specular/surfaceTable.ts';
import type { FrameLight } from './frameLight.ts';
import { perSideForPicture, type Response } from './gatherSource.ts';

/** A flat four-sided face that throws light on, as a polished or nearly polished base does. */
export interface ThrowingMirror {
  readonly pointM: Vec3;
  readonly normal: Vec3;
  /** A point of the plane lies on the face where both products with its way from the corner are 0 to 1. */
  readonly acrossPerM: Vec3;
  readonly alongPerM: Vec3;
  /** Reflectance per channel by the cosine of incidence. */
  readonly reflectance: (cos: number) => Vec3;
}

/** Edges of a sheet throw nothing that counts. */
const LEAST_AREA_M2 = 0.01;
/** Points on a lamp per side: a sheet is cut so coarsely that more would not show. */
const MOST_PER_SIDE = 2;

/** The broad flat faces of a set, glass pieces left out, that throw the light of lamps on. */
export function throwingMirrors(input: Pick<CheckInput, 'set' | 'scene'>, table: SurfaceTable): ThrowingMirror[] {
  return planarMirrors(input).flatMap(({ surfaceIndex: s, outlineM, normal }) => {
    const kind = table.kind[s];
    if (outlineM.length !== 4 || kind === SurfaceKind.clear) return [];
    const [pointM, second, , last] = outlineM;
    const [u, v] = [sub(second, pointM), sub(last, pointM)];
    const facing = cross(u, v);
    if (length(facing) < LEAST_AREA_M2) return [];
    const across = cross(v, facing);
    const along = cross(facing, u);
    const r: Vec3 = [table.reflectance[s * 3], table.reflectance[s * 3 + 1], table.reflectance[s * 3 + 2]];
    const reflectance = (cos: number): Vec3 => {
      if (kind === SurfaceKind.mirror) return r;
      if (kind === SurfaceKind.metal) {
        const lift = (1 - cos) ** 5;
        return [r[0] + (1 - r[0]) * lift, r[1] + (1 - r[1]) * lift, r[2] + (1 - r[2]) * lift];
      }
      const coat = dielectricReflectance(cos, table.coatIndex[s]);
      return [coat, coat, coat];
    };
    return [
      {
        pointM,
        normal: normalize(normal),
        acrossPerM: scale(across, 1 / dot(across, u)),
        alongPerM: scale(along, 1 / dot(along, v)),
        reflectance,
      },
    ];
  });
}

/**
 * Illuminance by way of flat mirrors by film layer, lx under the gains, working RGB, added to `into` (layers x 3). A lamp shines
 * on the mirror image of the point, through the outline of the mirror (law of reflection); each way is seen or not. What is
 * slightly rough throws as much, a little softer.
 */
export function gatherMirrored(
  light: FrameLight,
  mirrors: readonly ThrowingMirror[],
  pointM: Vec3,
  axis: Vec3,
  response: Response,
  into: Float64Array,
): void {
  for (const mirror of mirrors) {
    const height = planeDistanceM(mirror, pointM);
    if (Math.abs(height) < 1e-4) continue;
    const imageM = mirrorImagePoint(mirror, pointM);
    for (const { source, samples: given } of light.pictureSources) {
      const samples = given ?? light.samplesOf(source, Math.min(MOST_PER_SIDE, perSideForPicture(source, imageM)));
      const at = source.emitter.layerIndex * 3;
      for (let i = 0; i < samples.pointsM.length; i++) {
        const lampM = samples.pointsM[i];
        const lampHeight = planeDistanceM(mirror, lampM);
        if (!(lampHeight * height > 0)) continue;
        const share = lampHeight / (lampHeight + height);
        const way = sub(imageM, lampM);
        const metM: Vec3 = [lampM[0] + share * way[0], lampM[1] + share * way[1], lampM[2] + share * way[2]];
        const onFace = sub(metM, mirror.pointM);
        const [across, along] = [dot(onFace, mirror.acrossPerM), dot(onFace, mirror.alongPerM)];
        if (across < 0 || across > 1 || along < 0 || along > 1) continue;
        const distanceM = length(way);
        const out = scale(way, 1 / distanceM);
        const cosEmitter = dot(out, samples.normals[i]);
        const weight = response(dot(normalize(sub(metM, pointM)), axis));
        if (cosEmitter <= 0 || weight <= 0) continue;
        const nits = light.query.emittedNits(source.emitterIndex, samples.normals[i], out);
        if (nits <= 0 || light.query.blocked(metM, lampM) || light.query.blocked(pointM, metM)) continue;
        const lux = (nits * cosEmitter * samples.areaEachM2 * weight) / (distanceM * distanceM);
        const reflected = mirror.reflectance(Math.abs(dot(out, mirror.normal)));
        for (let k = 0; k < 3; k++) into[at + k] += lux * reflected[k] * source.gainRgb[k];
      }
    }
  }
}
