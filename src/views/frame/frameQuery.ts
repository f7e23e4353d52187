import type { RayQuery, World } from '../../transport/contracts.ts';
import { createRayQuery } from '../../transport/cpu/rayQuery.ts';
import { worldStore } from '../session/index.ts';

let cached: { readonly world: World; readonly query: RayQuery } | null = null;

/** Rays into the compiled set of the frame on screen; null until it is built. */
export function getFrameQuery(): RayQuery | null {
  const { world } = worldStore.getState();
  if (world === null) return null;
  if (cached?.world !== world) cached = { world, query: createRayQuery(world) };
  return cached.query;
}
