import type { PlacedShape } from '../core/shape.ts';
import { boundsOfShape } from './bounds.ts';
import type { Bounds } from './setModel.ts';

/**
 * What building a set leaves for the next: a record that comes again as it was gives the very same surfaces, so that all that is
 * known of them holds. Sets are the same with it and without.
 */
export interface SetMemory {
  /** Begins a set; what the last one did not ask for is forgotten. */
  begin(): void;
  /** What `make` gave for inputs that read the same, plain data, or gives now. */
  recall<T extends object>(kind: string, inputs: unknown, make: () => T): T;
  boundsOf(surface: PlacedShape): Bounds;
}

export function createSetMemory(): SetMemory {
  let last = new Map<string, object>();
  let now = new Map<string, object>();
  const bounds = new WeakMap<PlacedShape, Bounds>();
  return {
    begin() {
      last = now;
      now = new Map();
    },
    recall<T extends object>(kind: string, inputs: unknown, make: () => T): T {
      const key = `${kind} ${JSON.stringify(inputs)}`;
      // Under one key lies what was made of the same kind from the same inputs.
      const made = (now.get(key) ?? last.get(key) ?? make()) as T;
      now.set(key, made);
      return made;
    },
    boundsOf(surface) {
      const kept = bounds.get(surface);
      if (kept) return kept;
      const box = boundsOfShape(surface);
      bounds.set(surface, box);
      return box;
    },
  };
}
