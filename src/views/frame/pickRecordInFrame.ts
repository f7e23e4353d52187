import { rayThrough } from '../../camera/projection.ts';
import type { RayQuery, World } from '../../transport/contracts.ts';
import { createRayQuery } from '../../transport/cpu/rayQuery.ts';
import { getCameraView, worldStore } from '../session/index.ts';

let cached: { readonly world: World; readonly query: RayQuery } | null = null;

/** Record seen at a place of the frame, u right and v down 0..1; null where nothing stands or no set is built yet. */
export function pickRecordInFrame(u: number, v: number): string | null {
  const { world } = worldStore.getState();
  if (world === null) return null;
  if (cached?.world !== world) cached = { world, query: createRayQuery(world) };
  const { originM, direction } = rayThrough(getCameraView(), u, v);
  const hit = cached.query.closestHit(originM, direction);
  return hit ? world.surfaceNames[hit.surfaceIndex].recordId : null;
}
