import type { InstantStorage, KeyValueStorage } from './keyValue.ts';

/** A database that does not answer within this time is taken as not there: some private windows never do. */
const ANSWER_MS = 3000;

/** The first of the storages that answers a read; null when none does. */
export async function pickStorage(candidates: readonly KeyValueStorage[]): Promise<KeyValueStorage | null> {
  for (const candidate of candidates) {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tooLate = new Promise<false>((resolve) => {
      timer = setTimeout(() => resolve(false), ANSWER_MS);
    });
    const answers = candidate.read('keyglass:probe').then((probe) => probe.ok);
    const works = await Promise.race([answers, tooLate]);
    clearTimeout(timer);
    if (works) return candidate;
  }
  return null;
}

/** What autosave keeps its generations in, and what it grasps at when the page goes. */
export interface OpenedStorage {
  readonly main: KeyValueStorage;
  readonly parting: InstantStorage;
}
