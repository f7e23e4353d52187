import { rec2020FromRec709 } from '../../core/color/spaces.ts';
import type { Finish } from '../../materials/finish.ts';
import { meanReflectanceRgb } from '../../materials/finishPattern.ts';
import type { CheckInput } from '../contracts.ts';
import { isSecondarySource } from '../light/bouncePatch.ts';
import { MIRROR_LIKE_ROUGHNESS } from '../limits.ts';

/** What a ray does where it meets a surface. */
export const SurfaceKind = {
  end: 0,
  matte: 1,
  gloss: 2,
  metal: 3,
  mirror: 4,
  translucent: 5,
  clear: 6,
  frosted: 7,
} as const;

/** Up to this GGX alpha a lobe is narrower than any light on a set, and one mirror ray stands for it. */
export const SMOOTH_ROUGHNESS = 0.03;

/** Rougher than this a lobe takes in so much that one ray says nothing of it. */
export const VEILED_ROUGHNESS = 0.5;

/** Per surface of the set, what the ray walk asks for, in flat arrays. */
export interface SurfaceTable {
  readonly kind: Uint8Array;
  /** 1 where a recognisable mirror image forms. */
  readonly mirrorLike: Uint8Array;
  /** 1 where one mirror ray stands for what else it mirrors, with a name or without. */
  readonly showsOthers: Uint8Array;
  /** 1 where a coat or metal blurs what it mirrors: past what one mirror ray can stand for. */
  readonly isRough: Uint8Array;
  /** Reflectance in working RGB, n x 3; the mean over a pattern. */
  readonly reflectance: Float64Array;
  readonly transmittance: Float64Array;
  readonly coatIndex: Float64Array;
  readonly roughness: Float64Array;
  /** Volume index on each side, -1 for none. */
  readonly frontVolume: Int32Array;
  readonly backVolume: Int32Array;
  /** Record index, into `recordIds`. */
  readonly record: Int32Array;
  readonly recordIds: readonly string[];
  /** 1 where the surface is a bounce card, diffusion cloth or shade. */
  readonly bounces: Uint8Array;
  readonly volumeIndex: Float64Array;
  /** n x 3, per metre: absorption and scattering, for what scatters leaves the chain too. */
  readonly volumeExtinction: Float64Array;
  readonly volumePriority: Float64Array;
}

export function createSurfaceTable({ set, scene }: CheckInput): SurfaceTable {
  const count = set.surfaces.length;
  const volumeAt = new Map(set.volumes.map((volume, i) => [volume.id, i]));
  const gripIds = new Set(scene.grip.map((item) => item.id));
  const recordAt = new Map<string, number>();
  const table = {
    kind: new Uint8Array(count),
    mirrorLike: new Uint8Array(count),
    showsOthers: new Uint8Array(count),
    isRough: new Uint8Array(count),
    reflectance: new Float64Array(count * 3),
    transmittance: new Float64Array(count * 3),
    coatIndex: new Float64Array(count).fill(1),
    roughness: new Float64Array(count),
    frontVolume: new Int32Array(count).fill(-1),
    backVolume: new Int32Array(count).fill(-1),
    record: new Int32Array(count),
    bounces: new Uint8Array(count),
  };
  set.surfaces.forEach((surface, i) => {
    const { finish } = surface;
    table.kind[i] = kindOf(finish);
    if (finish.type !== 'clear' && finish.type !== 'black')
      table.reflectance.set(rec2020FromRec709(meanReflectanceRgb(finish)), i * 3);
    if (finish.type === 'translucent') table.transmittance.set(rec2020FromRec709(finish.transmittanceRgb), i * 3);
    if (finish.type === 'gloss') table.coatIndex[i] = finish.coatIndex;
    if (finish.type === 'gloss' || finish.type === 'metal') table.roughness[i] = finish.roughness;
    table.mirrorLike[i] = isMirrorLike(finish) ? 1 : 0;
    table.showsOthers[i] = isCoated(finish) && table.roughness[i] <= VEILED_ROUGHNESS ? 1 : 0;
    table.isRough[i] = table.roughness[i] > SMOOTH_ROUGHNESS ? 1 : 0;
    if (surface.frontVolume !== undefined) table.frontVolume[i] = volumeAt.get(surface.frontVolume) ?? -1;
    if (surface.backVolume !== undefined) table.backVolume[i] = volumeAt.get(surface.backVolume) ?? -1;
    if (!recordAt.has(surface.recordId)) recordAt.set(surface.recordId, recordAt.size);
    table.record[i] = recordAt.get(surface.recordId) ?? 0;
    table.bounces[i] = isSecondarySource(surface, gripIds) ? 1 : 0;
  });
  return {
    ...table,
    recordIds: [...recordAt.keys()],
    volumeIndex: Float64Array.from(set.volumes, (volume) => volume.medium.index),
    volumeExtinction: Float64Array.from(
      set.volumes.flatMap(({ medium: { absorptionPerM, scatteringPerM = [0, 0, 0] } }) =>
        absorptionPerM.map((absorption, k) => absorption + scatteringPerM[k]),
      ),
    ),
    volumePriority: Float64Array.from(set.volumes, (volume) => volume.priority),
  };
}

/** Does light turn off its face by a law of mirrors, be it sharply or not? */
const isCoated = ({ type }: Finish): boolean => type === 'mirror' || type === 'gloss' || type === 'metal';

/** Does a finish show a recognisable image of a light? */
export const isMirrorLike = (finish: Finish): boolean =>
  finish.type === 'mirror' ||
  (finish.type === 'clear' && finish.roughness === 0) ||
  ((finish.type === 'gloss' || finish.type === 'metal') && finish.roughness <= MIRROR_LIKE_ROUGHNESS);

function kindOf(finish: Finish): number {
  switch (finish.type) {
    case 'black':
      return SurfaceKind.end;
    case 'matte':
    case 'gloss':
    case 'metal':
    case 'mirror':
    case 'translucent':
      return SurfaceKind[finish.type];
    case 'clear':
      return finish.roughness > 0 ? SurfaceKind.frosted : SurfaceKind.clear;
  }
}
