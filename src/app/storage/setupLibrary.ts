import { z } from 'zod';
import { fail, ok, type Result } from '../../core/result.ts';
import { parseSetup, type SetupError, serializeSetup } from '../../document/codec.ts';
import type { Setup } from '../../document/setup.ts';
import type { KeyValueStorage, StorageFault } from './keyValue.ts';

const INDEX_KEY = 'keyglass:library';
const textKey = (id: string): string => `keyglass:library:text:${id}`;
const pictureKey = (id: string): string => `keyglass:library:picture:${id}`;

const entrySchema = z.object({
  id: z.string().min(1).max(80),
  title: z.string().max(200),
  frameCount: z.number(),
  changedAtMs: z.number(),
});
/** What is known of a kept setup before it is opened. */
export type LibraryEntry = z.infer<typeof entrySchema>;

/** Setups kept in this browser, each a whole text of its own. Removing one takes it off the list; its text goes with it. */
export interface SetupLibrary {
  /** Last changed first. */
  list(): Promise<readonly LibraryEntry[]>;
  read(id: string): Promise<Result<Setup, SetupError | StorageFault>>;
  /** Null where none was taken yet. */
  readPicture(id: string): Promise<string | null>;
  put(id: string, setup: Setup, nowMs: number): Promise<Result<void, StorageFault>>;
  putPicture(id: string, dataUrl: string): Promise<Result<void, StorageFault>>;
  remove(id: string): Promise<Result<void, StorageFault>>;
}

export function createSetupLibrary(storage: KeyValueStorage): SetupLibrary {
  const readIndex = async (): Promise<readonly LibraryEntry[]> => {
    const text = await storage.read(INDEX_KEY);
    return text.ok ? parseIndex(text.value) : [];
  };
  /** Changes of the list follow one another, or one could write over the other. */
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = queue.then(work, work);
    queue = done;
    return done;
  };
  const writeIndex = (entries: readonly LibraryEntry[]) => storage.write(INDEX_KEY, JSON.stringify(entries));

  return {
    list: async () => (await readIndex()).toSorted((a, b) => b.changedAtMs - a.changedAtMs),
    async read(id) {
      const text = await storage.read(textKey(id));
      if (!text.ok) return text;
      if (text.value === null) return fail({ kind: 'failed', message: 'That setup is no longer in this browser.' });
      const parsed = parseSetup(text.value);
      return parsed.ok ? ok(parsed.value.setup) : parsed;
    },
    async readPicture(id) {
      const picture = await storage.read(pictureKey(id));
      return picture.ok ? picture.value : null;
    },
    put: (id, setup, nowMs) =>
      inTurn(async () => {
        // The text first: an entry never points at nothing.
        const written = await storage.write(textKey(id), serializeSetup(setup));
        if (!written.ok) return written;
        const entry = { id, title: setup.title, frameCount: setup.frames.length, changedAtMs: nowMs };
        return writeIndex([entry, ...(await readIndex()).filter((other) => other.id !== id)]);
      }),
    putPicture: (id, dataUrl) => storage.write(pictureKey(id), dataUrl),
    remove: (id) =>
      inTurn(async () => {
        const written = await writeIndex((await readIndex()).filter((other) => other.id !== id));
        if (!written.ok) return written;
        await storage.remove(textKey(id));
        await storage.remove(pictureKey(id));
        return written;
      }),
  };
}

function parseIndex(text: string | null): readonly LibraryEntry[] {
  if (text === null) return [];
  try {
    const entries: unknown = JSON.parse(text);
    if (!Array.isArray(entries)) return [];
    return entries.flatMap((entry: unknown) => {
      const parsed = entrySchema.safeParse(entry);
      return parsed.success ? [parsed.data] : [];
    });
  } catch {
    // A list that was cut short is begun anew; the setup that is open puts itself back.
    return [];
  }
}
