import { length, sub } from '../../../core/vec3.ts';
import type { FrameScene, SetModel } from '../../../scene/setModel.ts';
import { type BouncePatch, bouncePatches } from './bouncePatches.ts';
import type { ShadedLight } from './directIlluminance.ts';
import { gripLights } from './gripLights.ts';
import { type LitRegion, mayShade, occludersOfSet } from './occluders.ts';
import { type SceneLight, sceneLights } from './sceneLights.ts';

/**
 * All light of one frame as the quick picture and the stage see it: fixtures, the cards and cloths that send it on, and
 * the broad surfaces that brighten one another.
 */
export interface LightField {
  readonly lights: readonly ShadedLight[];
  readonly patches: readonly BouncePatch[];
}

/** How much of the light is followed. */
export interface FieldDetail {
  /** Broad surfaces that brighten others, in pieces. */
  readonly patches: number;
  /** Whether things shade the weak light of cards and cloths. */
  readonly secondHandShadows: boolean;
}

const FINE: FieldDetail = { patches: 56, secondHandShadows: true };

const REGION_LEAST_M = 0.35;
const REGION_MOST_M = 1.2;

export function lightField(
  scene: FrameScene,
  set: SetModel,
  layerGains: Float32Array,
  detail: FieldDetail = FINE,
): LightField {
  const occluders = occludersOfSet(scene, set);
  const region = litRegion(scene, set);
  const gripIds = new Set(scene.grip.map(({ id }) => id));
  const shaded = (light: SceneLight): ShadedLight => ({
    light,
    // A card stands in the way of others, not of itself; barn doors belong to their light and do.
    occluders: occluders.filter(
      (o) =>
        (!light.secondHand || (detail.secondHandShadows && !o.shadesItself)) &&
        mayShade(light.centreM, lightRadiusM(light), o, region) &&
        (o.recordId !== light.recordId || !(gripIds.has(o.recordId) || light.isShade)),
    ),
  });
  const direct = sceneLights(scene.fixtures, layerGains).map(shaded);
  const lights = [...direct, ...gripLights(scene.grip, direct).map(shaded)];
  return { lights, patches: bouncePatches(set, lights, occluders, detail.patches, region.centreM) };
}

const lightRadiusM = ({ halfUM, halfVM }: SceneLight): number => Math.hypot(length(halfUM), length(halfVM));

/** The ball round the meter point that holds what stands on the set; tables and backdrops count only within reach. */
export function litRegion(scene: FrameScene, set: SetModel): LitRegion {
  const centreM = scene.subject.meterPointM;
  let radiusM = REGION_LEAST_M;
  for (const { id } of scene.pieces) {
    const bounds = set.boundsByRecord.get(id);
    if (!bounds) continue;
    const reach = Math.max(length(sub(bounds.minM, centreM)), length(sub(bounds.maxM, centreM)));
    radiusM = Math.max(radiusM, Math.min(REGION_MOST_M, reach));
  }
  return { centreM, radiusM };
}
