import { afterEach, describe, expect, it, vi } from 'vitest';
import { createGenerations } from '../../../src/app/storage/generations.ts';
import { createIndexedDbStorage } from '../../../src/app/storage/indexedDbStorage.ts';
import { storageFaultFrom } from '../../../src/app/storage/keyValue.ts';
import { createLocalStorageText } from '../../../src/app/storage/localStorageText.ts';
import { pickStorage } from '../../../src/app/storage/openStorage.ts';
import { sampleSetup } from '../../document/sampleSetup.ts';
import { FakeStorage, FULL } from './fakeStorage.ts';

/** The Storage of a page, with room for so many characters. */
function fakeLocalStorage(room: number): Storage {
  const texts = new Map<string, string>();
  return {
    get length() {
      return texts.size;
    },
    key: (index) => [...texts.keys()][index] ?? null,
    clear: () => texts.clear(),
    getItem: (key) => texts.get(key) ?? null,
    setItem(key, text) {
      if (text.length > room) throw new DOMException('full', 'QuotaExceededError');
      texts.set(key, text);
    },
    removeItem: (key) => texts.delete(key),
  };
}

describe('storages of the browser', () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  it('falls back from a database that is not there to localStorage, and on to nothing', async () => {
    // Node has no IndexedDB, as some private windows have none.
    const database = createIndexedDbStorage();
    const local = createLocalStorageText(() => fakeLocalStorage(1e6));
    const forbidden = createLocalStorageText(() => {
      throw new DOMException('no', 'SecurityError');
    });
    expect(await pickStorage([database, local])).toBe(local);
    expect(await pickStorage([database, forbidden])).toBeNull();
  });

  it('passes over a database that never answers', async () => {
    vi.useFakeTimers();
    const silent = {
      read: () => new Promise<never>(() => undefined),
      write: () => new Promise<never>(() => undefined),
      remove: () => new Promise<never>(() => undefined),
    };
    const working = new FakeStorage();
    const picked = pickStorage([silent, working]);
    await vi.advanceTimersByTimeAsync(10_000);
    expect(await picked).toBe(working);
  });

  it('says that localStorage is full, and keeps what was there', async () => {
    const storage = fakeLocalStorage(10);
    const local = createLocalStorageText(() => storage);
    expect((await local.write('a', 'short')).ok).toBe(true);
    const full = await local.write('a', 'much too long for it');
    expect(!full.ok && full.error.kind).toBe('full');
    expect(await local.read('a')).toEqual({ ok: true, value: 'short' });
  });

  it.each([
    ['QuotaExceededError', 'full'],
    ['SecurityError', 'blocked'],
    ['UnknownError', 'failed'],
  ])('names %s as %s, with a mend', (name, kind) => {
    const fault = storageFaultFrom(new DOMException('x', name));
    expect(fault.kind).toBe(kind);
    expect(fault.message).toContain('save the setup to a file');
  });

  it('gives a fault, and no empty setup, when the storage cannot be read', async () => {
    const broken = new FakeStorage();
    broken.fault = FULL;
    expect(await createGenerations({ main: broken, parting: new FakeStorage() }).restore()).toEqual({
      ok: false,
      error: FULL,
    });
  });

  it('refuses to save before it has looked for what is there', async () => {
    const generations = createGenerations({ main: new FakeStorage(), parting: new FakeStorage() });
    await expect(generations.save(sampleSetup(), 0)).rejects.toThrow(/restore\(\) comes before/);
  });
});
