import { add, distance, dot, normalize, scale, sub, type Vec3 } from '../../core/vec3.ts';
import type { OpticalSurface } from '../../materials/surface.ts';
import { cutSurface } from './cutSurface.ts';
import type { FrameLight } from './frameLight.ts';
import type { Response } from './gatherSource.ts';

/** A small piece of a bounce card, diffusion cloth, shade or set piece that sends on the light which falls on it. */
export interface BouncePatch {
  readonly surfaceIndex: number;
  readonly pointM: Vec3;
  readonly normal: Vec3;
  readonly areaM2: number;
  /** Four in order round it; none where it stands for several. */
  readonly cornersM: readonly Vec3[];
  /** Cut from a flat surface, so that its corners span it. */
  readonly isFlat: boolean;
  /** Patches of one number stand as one where less detail will do. */
  readonly joinKey: number;
  /** Luminance of each side by film layer under its gain: layers x 3, working RGB, cd/m2. */
  readonly frontNits: Float64Array;
  readonly backNits: Float64Array;
  /** Sum over layers, working RGB. */
  readonly frontTotal: Float64Array;
  readonly backTotal: Float64Array;
  /** Illuminance that flat mirrors throw on each side, sum over layers, working RGB, lx; none where no mirror was asked for. */
  readonly mirrored?: { readonly front: Float64Array; readonly back: Float64Array };
}

/** Join keys that one face takes up. */
const KEYS_PER_FACE = 256;

/** A surface that scatters and is there to light the set: a sheet of grip, or the shade of a lantern. */
export const isSecondarySource = (surface: OpticalSurface, gripIds: ReadonlySet<string>): boolean =>
  (surface.finish.type === 'matte' || surface.finish.type === 'translucent') &&
  (gripIds.has(surface.recordId) || surface.secondarySource === true);

/** Unlit patches of one surface; `joinU` x `joinV` of them share a join key. */
export const patchesOf = (
  surface: OpticalSurface,
  surfaceIndex: number,
  layerCount: number,
  countU: number,
  countV: number,
  joinU: number,
  joinV: number,
): BouncePatch[] =>
  cutSurface(surface, countU, countV).map((patch, at) => {
    const [i, j] = [Math.floor(at / countV), at % countV];
    const across = Math.ceil(countV / joinV);
    return {
      ...patch,
      surfaceIndex,
      isFlat: surface.shape.type === 'quad',
      joinKey: surfaceIndex * KEYS_PER_FACE + Math.floor(i / joinU) * across + Math.floor(j / joinV),
      frontNits: new Float64Array(layerCount * 3),
      backNits: new Float64Array(layerCount * 3),
      frontTotal: new Float64Array(3),
      backTotal: new Float64Array(3),
    };
  });

/** A patch nearer than this many times its own size is split. */
const NEAR_SIZES = 2;
const MOST_SPLITS = 5;
/** A part larger than this share of its distance is split again, each way. */
const TOUCHING_SIZES = 0.6;
const TOUCHING_SPLITS = 5;
/** Parts that pass less than this are not asked for. */
const NEAR_LEAST = 1e-4;

export interface GatherPatchesOptions {
  /** Surfaces that cast no shadow. */
  readonly ignore?: (surfaceIndex: number) => boolean;
  /** By patch, what was found of it from this very place before, NaN for nothing; filled in. */
  readonly reach?: Float64Array;
}

/**
 * Illuminance from the patches by film layer, lx under the gains, working RGB, added to `into` (layers x 3). A near patch
 * is summed over parts of it, each seen or not; a far one is seen when its middle is.
 */
export function gatherPatches(
  light: FrameLight,
  patches: readonly BouncePatch[],
  pointM: Vec3,
  axis: Vec3,
  response: Response,
  into: Float64Array,
  { ignore, reach }: GatherPatchesOptions = {},
): void {
  for (let i = 0; i < patches.length; i++) {
    const patch = patches[i];
    const d = sub(patch.pointM, pointM);
    const isFront = dot(d, patch.normal) < 0;
    const total = isFront ? patch.frontTotal : patch.backTotal;
    if (total[0] + total[1] + total[2] <= 0) continue;
    let seen = reach ? reach[i] : Number.NaN;
    if (Number.isNaN(seen)) {
      seen = reachOf(light, patch, pointM, axis, response, ignore);
      if (reach) reach[i] = seen;
    }
    if (seen <= 0) continue;
    const step = into.length === 3 ? total : isFront ? patch.frontNits : patch.backNits;
    for (let k = 0; k < into.length; k++) into[k] += step[k] * seen;
  }
}

/** Illuminance that a patch of 1 cd/m2 gives, what hides it counted. */
function reachOf(
  light: FrameLight,
  patch: BouncePatch,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
  ignore?: (surfaceIndex: number) => boolean,
): number {
  const d = sub(patch.pointM, pointM);
  const squared = dot(d, d);
  if (squared < 1e-9) return 0;
  const sizes = Math.sqrt(patch.areaM2 / squared) * NEAR_SIZES;
  if (sizes > 1 && patch.isFlat)
    return nearGeometry(light, patch, pointM, axis, response, Math.min(MOST_SPLITS, Math.ceil(sizes)), ignore);
  const geometry = patchGeometry(patch.pointM, patch.normal, patch.areaM2, pointM, axis, response);
  return geometry > 0 && !light.query.blocked(pointM, patch.pointM, ignore) ? geometry : 0;
}

/** Response x cosine at the patch x area / distance^2, held under a hemisphere for a receiver that all but touches it. */
function patchGeometry(
  patchM: Vec3,
  normal: Vec3,
  areaM2: number,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
): number {
  const dx = patchM[0] - pointM[0];
  const dy = patchM[1] - pointM[1];
  const dz = patchM[2] - pointM[2];
  const squared = dx * dx + dy * dy + dz * dz;
  if (squared < 1e-9) return 0;
  const inverse = 1 / Math.sqrt(squared);
  const weight = response((dx * axis[0] + dy * axis[1] + dz * axis[2]) * inverse);
  const cosPatch = Math.abs(dx * normal[0] + dy * normal[1] + dz * normal[2]) * inverse;
  return Math.min((weight * cosPatch * areaM2) / squared, Math.PI);
}

/** The same over those of n x n parts of a four-cornered patch that are seen; parts that all but touch are split again. */
function nearGeometry(
  light: FrameLight,
  patch: BouncePatch,
  pointM: Vec3,
  axis: Vec3,
  response: Response,
  n: number,
  ignore?: (surfaceIndex: number) => boolean,
): number {
  const areaM2 = patch.areaM2 / (n * n);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const partM = cornerMix(patch.cornersM, (i + 0.5) / n, (j + 0.5) / n);
      const distanceM = distance(partM, pointM);
      let geometry = 0;
      if (areaM2 < (TOUCHING_SIZES * distanceM) ** 2)
        geometry = patchGeometry(partM, patch.normal, areaM2, pointM, axis, response);
      else {
        for (let k = 0; k < TOUCHING_SPLITS ** 2; k++) {
          const [s, t] = [k % TOUCHING_SPLITS, Math.floor(k / TOUCHING_SPLITS)];
          const at = cornerMix(
            patch.cornersM,
            (i + (s + 0.5) / TOUCHING_SPLITS) / n,
            (j + (t + 0.5) / TOUCHING_SPLITS) / n,
          );
          geometry += patchGeometry(at, patch.normal, areaM2 / TOUCHING_SPLITS ** 2, pointM, axis, response);
        }
      }
      if (geometry > NEAR_LEAST && !light.query.blocked(pointM, partM, ignore)) sum += geometry;
    }
  }
  return sum;
}

/** Place between four corners at parts of the two ways across. */
function cornerMix([a, b, c, d]: readonly Vec3[], s: number, t: number): Vec3 {
  const [wa, wb, wc, wd] = [(1 - s) * (1 - t), s * (1 - t), s * t, (1 - s) * t];
  return [
    wa * a[0] + wb * b[0] + wc * c[0] + wd * d[0],
    wa * a[1] + wb * b[1] + wc * c[1] + wd * d[1],
    wa * a[2] + wb * b[2] + wc * c[2] + wd * d[2],
  ];
}

/** Patches of one join key as one, for picture-grade light: areas add, the rest is the mean by area. */
export function joinPatches(patches: readonly BouncePatch[]): BouncePatch[] {
  const byKey = new Map<number, BouncePatch[]>();
  for (const patch of patches) {
    const members = byKey.get(patch.joinKey);
    if (members) members.push(patch);
    else byKey.set(patch.joinKey, [patch]);
  }
  return [...byKey.values()].map((members) => {
    if (members.length === 1) return members[0];
    const areaM2 = members.reduce((sum, patch) => sum + patch.areaM2, 0);
    const meanOf = (pick: (patch: BouncePatch) => Vec3): Vec3 =>
      members.reduce<Vec3>((sum, patch) => add(sum, scale(pick(patch), patch.areaM2 / areaM2)), [0, 0, 0]);
    const mean = (pick: (patch: BouncePatch) => Float64Array): Float64Array =>
      pick(members[0]).map((_, k) => members.reduce((sum, patch) => sum + (pick(patch)[k] * patch.areaM2) / areaM2, 0));
    const middleM = meanOf((patch) => patch.pointM);
    const away = (patch: BouncePatch): number => distance(patch.pointM, middleM);
    // The middle of a curved surface lies off it: the member nearest to it stands for all.
    const middle = members.reduce((best, patch) => (away(patch) < away(best) ? patch : best));
    return {
      ...middle,
      cornersM: [],
      pointM: middle.isFlat ? middleM : middle.pointM,
      normal: normalize(meanOf((patch) => patch.normal)),
      isFlat: false,
      areaM2,
      frontNits: mean((patch) => patch.frontNits),
      backNits: mean((patch) => patch.backNits),
      frontTotal: mean((patch) => patch.frontTotal),
      backTotal: mean((patch) => patch.backTotal),
    };
  });
}
