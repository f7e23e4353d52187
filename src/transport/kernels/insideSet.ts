import type { World } from '../contracts.ts';
import { VOLUME } from '../layout/schema.ts';

const CAPACITY = 15;
/** Words that a saved set takes. */
export const INSIDE_WORDS = CAPACITY + 1;

/**
 * The volumes that a path is inside of. Crossing a surface takes one out and puts one in; the one with the highest
 * priority is the medium there. Entering twice is entering once, so the overlap at a seam does no harm.
 */
export interface InsideSet {
  clear(): void;
  /** Volume that fills the space here, -1 for air. */
  medium(): number;
  /** Medium there would be after leaving `from` and entering `to` (-1 for none), without going. */
  mediumAfter(from: number, to: number): number;
  cross(from: number, to: number): void;
  /** Writes the set to `store` from `at` (INSIDE_WORDS words), and reads it back. */
  save(store: Int32Array, at: number): void;
  restore(store: Int32Array, at: number): void;
}

export function createInsideSet(world: World): InsideSet {
  const members = new Int32Array(CAPACITY);
  const size = new Int32Array(1);
  const priority = Float64Array.from(
    { length: world.volumes.length },
    (_, i) => world.volumeWords[i * VOLUME.strideWords + VOLUME.offset.priority],
  );
  const top = (leaving: number, entering: number): number => {
    let best = entering;
    for (let i = 0; i < size[0]; i++) {
      const m = members[i];
      if (m !== leaving && (best < 0 || priority[m] > priority[best])) best = m;
    }
    return best;
  };
  return {
    clear() {
      size[0] = 0;
    },
    medium: () => top(-1, -1),
    mediumAfter: (from, to) => top(from, to),
    cross(from, to) {
      let n = 0;
      let present = false;
      for (let i = 0; i < size[0]; i++) {
        const m = members[i];
        if (m === from) continue;
        if (m === to) present = true;
        members[n++] = m;
      }
      if (to >= 0 && !present && n < CAPACITY) members[n++] = to;
      size[0] = n;
    },
    save(store, at) {
      store[at] = size[0];
      for (let i = 0; i < size[0]; i++) store[at + 1 + i] = members[i];
    },
    restore(store, at) {
      size[0] = store[at];
      for (let i = 0; i < size[0]; i++) members[i] = store[at + 1 + i];
    },
  };
}
