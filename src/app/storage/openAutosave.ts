import { createGenerations, createNoGenerations, type Generations, type Restored } from './generations.ts';
import { createIndexedDbStorage } from './indexedDbStorage.ts';
import type { KeyValueStorage, StorageFault } from './keyValue.ts';
import { createLocalStorageText } from './localStorageText.ts';
import { pickStorage } from './openStorage.ts';

export interface OpenedAutosave {
  /** Where other things of this browser may be kept too; null where it keeps nothing. */
  readonly storage: KeyValueStorage | null;
  readonly generations: Generations;
  readonly restored: Restored;
  /** Why nothing could be looked for, if so. Nothing is written either then, so that nothing is written over. */
  readonly fault?: StorageFault;
}

/** What this browser keeps, in IndexedDB, else in localStorage, else nowhere, which every save then says. */
export async function openAutosave(): Promise<OpenedAutosave> {
  const local = createLocalStorageText();
  const main = await pickStorage([createIndexedDbStorage(), local]);
  if (!main) return { storage: null, generations: createNoGenerations(), restored: { kept: null } };
  const generations = createGenerations({ main, parting: local });
  const restored = await generations.restore();
  if (restored.ok) return { storage: main, generations, restored: restored.value };
  return { storage: null, generations: createNoGenerations(), restored: { kept: null }, fault: restored.error };
}
