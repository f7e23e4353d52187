import { fail, ok, type Result } from '../../core/result.ts';
import { type InstantStorage, type KeyValueStorage, type StorageFault, storageFaultFrom } from './keyValue.ts';

const attempt = <T>(action: () => T): Result<T, StorageFault> => {
  try {
    return ok(action());
  } catch (error) {
    return fail(storageFaultFrom(error));
  }
};

/** Texts in localStorage: about 5 MB, but there at once and until the very end of a page. */
export function createLocalStorageText(storage: () => Storage = () => localStorage): KeyValueStorage & InstantStorage {
  const readNow = (key: string) => attempt(() => storage().getItem(key));
  const writeNow = (key: string, text: string) => attempt(() => storage().setItem(key, text));
  return {
    readNow,
    writeNow,
    removeNow(key) {
      attempt(() => storage().removeItem(key));
    },
    read: async (key) => readNow(key),
    write: async (key, text) => writeNow(key, text),
    remove: async (key) => attempt(() => storage().removeItem(key)),
  };
}
