import { gatherAccurate } from '../../analysis/light/accurateLux.ts';
import { createFrameLight, type FrameLight } from '../../analysis/light/frameLight.ts';
import { DEFAULT_LIMITS } from '../../analysis/limits.ts';
import { rayThrough } from '../../camera/projection.ts';
import { dot, scale } from '../../core/vec3.ts';
import { traceKey } from '../../document/hash.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import type { RayQuery } from '../../transport/contracts.ts';
import { getCameraView, getFrameScene, getLayerGains, getSetModel, worldStore } from '../session/index.ts';
import { memoizeLast } from '../session/memoizeLast.ts';
import { getFrameQuery } from './frameQuery.ts';

const keyOf = memoizeLast((scene: FrameScene) => traceKey(scene));

let cached: { readonly query: RayQuery; readonly gains: Float32Array; readonly light: FrameLight } | null = null;

/**
 * Incident light, lx, straight from the lights on the surface seen at a place of the frame: what a flat meter head laid on it
 * reads, less what the set bounces. Clear glass is looked through. Null where nothing stands, on a light itself, and
 * while the compiled set is not the one on screen.
 */
export function directLuxAt(u: number, v: number): number | null {
  const query = getFrameQuery();
  const scene = getFrameScene();
  if (query === null || worldStore.getState().key !== keyOf(scene)) return null;
  const view = getCameraView();
  const set = getSetModel();
  const { originM, direction } = rayThrough(view, u, v);
  const hit = query
    .hitsAlong(originM, direction)
    .find(({ surfaceIndex }) => set.surfaces[surfaceIndex]?.finish.type !== 'clear');
  const surface = hit && set.surfaces[hit.surfaceIndex];
  if (!hit || !surface || surface.emission) return null;
  const layerGains = getLayerGains();
  if (cached?.query !== query || cached.gains !== layerGains) {
    const input = { scene, set, query, view, layerGains, limits: DEFAULT_LIMITS };
    cached = { query, gains: layerGains, light: createFrameLight(input) };
  }
  const normal = dot(hit.normal, direction) > 0 ? scale(hit.normal, -1) : hit.normal;
  // Good to about a hundredth, which a hand does not see, and quick enough for every move of the pointer.
  const layerLux = new Float64Array(cached.light.layerCount);
  gatherAccurate(cached.light, [], hit.pointM, normal, layerLux);
  return layerLux.reduce((sum, lux) => sum + lux, 0);
}
