import type { CheckInput } from '../contracts.ts';
import { createPlaceStore, type PlaceStore, type RunningPlaceStore } from './keptPlaces.ts';
import { createRayStore, type RayStore } from './keptRays.ts';
import { findSetChange, isSame } from './setChange.ts';

/**
 * What one run of the checks leaves for the next: rays already walked and light already summed, each good until something
 * moves into its way. Results are the same with it and without, to the last digit. For one frame at a time.
 */
export interface CheckCache {
  /** Compares an input with that of the last run and forgets what no longer holds. Each run begins with it. */
  begin(input: CheckInput): void;
  /** Places by what they are used for. */
  places(use: string): PlaceStore;
  /** Null where rays are not kept. */
  readonly rays: RayStore | null;
}

/** @param keepsRays false where nothing will be asked for a second time, which saves the room */
export function createCheckCache({ keepsRays = true }: { readonly keepsRays?: boolean } = {}): CheckCache {
  const stores = new Map<string, RunningPlaceStore>();
  const rays = keepsRays ? createRayStore() : null;
  let last: CheckInput | null = null;
  let run = 0;
  let emitterCount = 0;
  return {
    rays,
    begin(input) {
      run++;
      const change = last ? findSetChange(last, input) : null;
      const isViewSame = last !== null && isSame(last.view, input.view);
      // Its gains may be written to later.
      last = { ...input, layerGains: input.layerGains.slice() };
      emitterCount = input.query.world.emitters.length;
      rays?.begin(run, isViewSame ? change : null);
      for (const store of stores.values()) store.begin(run, emitterCount, change);
    },
    places(use) {
      let store = stores.get(use);
      if (!store) {
        store = createPlaceStore();
        store.begin(run, emitterCount, null);
        stores.set(use, store);
      }
      return store;
    },
  };
}
