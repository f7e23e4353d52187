import { createStore, del, get, set, type UseStore } from 'idb-keyval';
import { fail, ok } from '../../core/result.ts';
import { type KeyValueStorage, storageFaultFrom } from './keyValue.ts';

/** Texts in an IndexedDB database of our own. Each write is one transaction. */
export function createIndexedDbStorage(databaseName = 'keyglass'): KeyValueStorage {
  let store: UseStore | undefined;
  const open = (): UseStore => {
    store ??= createStore(databaseName, 'texts');
    return store;
  };
  return {
    async read(key) {
      try {
        const text: unknown = await get(key, open());
        return ok(typeof text === 'string' ? text : null);
      } catch (error) {
        return fail(storageFaultFrom(error));
      }
    },
    async remove(key) {
      try {
        await del(key, open());
        return ok(undefined);
      } catch (error) {
        return fail(storageFaultFrom(error));
      }
    },
    async write(key, text) {
      try {
        await set(key, text, open());
        return ok(undefined);
      } catch (error) {
        return fail(storageFaultFrom(error));
      }
    },
  };
}
