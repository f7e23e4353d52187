import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type AutosaveStatus, startAutosave } from '../../../src/app/storage/autosave.ts';
import { createGenerations, type Generations } from '../../../src/app/storage/generations.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import type { Setup } from '../../../src/document/setup.ts';
import { createDocumentStore } from '../../../src/document/store.ts';
import { sampleSetup } from '../../document/sampleSetup.ts';
import { FakeStorage, FULL } from './fakeStorage.ts';

/** One life of a page over storages that outlive it. */
async function openPage(main: FakeStorage, parting: FakeStorage, initial: Setup = sampleSetup()) {
  const generations = createGenerations({ main, parting });
  const restored = await generations.restore();
  const kept = restored.ok ? restored.value.kept : null;
  const store = createDocumentStore(kept?.setup ?? initial);
  const statuses: AutosaveStatus[] = [];
  let hide: () => void = () => undefined;
  const autosave = startAutosave({
    document: store,
    generations,
    isRestored: kept !== null,
    onPageHide: (listener) => {
      hide = listener;
      return () => undefined;
    },
    onStatus: (status) => statuses.push(status),
  });
  return { store, autosave, generations, statuses, restored, hide: () => hide() };
}

const retitle = (title: string) => [{ op: 'setTitle', title } as const];

const titleKept = async (generations: Generations): Promise<string | undefined> => {
  const restored = await generations.restore();
  return restored.ok ? restored.value.kept?.setup.title : undefined;
};

const nextLife = (main: FakeStorage, parting: FakeStorage) => titleKept(createGenerations({ main, parting }));

describe('autosave', () => {
  let main: FakeStorage;
  let parting: FakeStorage;
  beforeEach(() => {
    vi.useFakeTimers();
    main = new FakeStorage();
    parting = new FakeStorage();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('saves each step within half a second, and many steps in a row no later', async () => {
    const { store } = await openPage(main, parting);
    const startMs = Date.now();
    for (let i = 0; i < 40; i++) {
      store.apply('Rename', retitle(`Title ${i}`));
      await vi.advanceTimersByTimeAsync(100);
    }
    const times = [startMs, ...main.written.map((write) => write.atMs)];
    for (let i = 1; i < times.length; i++) expect(times[i] - times[i - 1]).toBeLessThanOrEqual(500);
    await vi.advanceTimersByTimeAsync(500);
    expect(await nextLife(main, parting)).toBe('Title 39');
    expect(main.written.length).toBeLessThan(20);
  });

  it('saves within a drag at most a second late, and the end of it within half a second', async () => {
    const { store } = await openPage(main, parting);
    store.begin('Move');
    for (let i = 0; i < 30; i++) {
      store.update(retitle(`Drag ${i}`));
      await vi.advanceTimersByTimeAsync(100);
    }
    expect(main.written.length).toBeGreaterThanOrEqual(3);
    expect(await nextLife(main, parting)).toMatch(/^Drag (1[89]|2\d)$/);
    store.update(retitle('End'));
    store.commit();
    await vi.advanceTimersByTimeAsync(500);
    expect(await nextLife(main, parting)).toBe('End');
  });

  it('writes nothing while nothing changes, nor for a change that was taken back in time', async () => {
    const { store } = await openPage(main, parting);
    await vi.advanceTimersByTimeAsync(10_000);
    store.begin('Move');
    store.update(retitle('Away'));
    store.cancel();
    await vi.advanceTimersByTimeAsync(10_000);
    expect(main.written).toEqual([]);
  });

  it('keeps what was open when the page goes before the half second is over', async () => {
    const { store, hide } = await openPage(main, parting);
    store.apply('Rename', retitle('Saved'));
    await vi.advanceTimersByTimeAsync(500);
    store.apply('Rename', retitle('Last words'));
    main.crashAtShare = 0;
    hide();
    expect(await nextLife(main, parting)).toBe('Last words');
  });

  it('takes a later save over the copy made at page hide, when the page comes back after all', async () => {
    const { store, hide } = await openPage(main, parting);
    store.apply('Rename', retitle('Hidden'));
    hide();
    await vi.advanceTimersByTimeAsync(500);
    store.apply('Rename', retitle('Back'));
    await vi.advanceTimersByTimeAsync(500);
    expect(await nextLife(main, parting)).toBe('Back');
    expect(parting.texts.size).toBe(0);
  });

  it('does not lose the copy made at page hide to an older save that was still under way', async () => {
    main.writeDelayMs = 200;
    const { store, hide } = await openPage(main, parting);
    store.apply('Rename', retitle('Older'));
    await vi.advanceTimersByTimeAsync(450);
    store.apply('Rename', retitle('Newer'));
    hide();
    await vi.advanceTimersByTimeAsync(160);
    expect(await nextLife(main, parting)).toBe('Newer');
  });

  it('falls back on the generation before when the page stops in the midst of a write', async () => {
    for (const share of [0, 0.01, 0.5, 0.999]) {
      const disk = new FakeStorage();
      const first = await openPage(disk, parting);
      for (const title of ['One', 'Two', 'Three']) {
        first.store.apply('Rename', retitle(title));
        await vi.advanceTimersByTimeAsync(500);
      }
      disk.crashAtShare = share;
      first.store.apply('Rename', retitle('Cut short'));
      await vi.advanceTimersByTimeAsync(500);
      disk.crashAtShare = null;

      const second = await openPage(disk, new FakeStorage());
      expect(second.store.getState().setup.title).toBe('Three');
      expect(second.restored.ok && second.restored.value.unreadable?.kind).toBe('damaged');
      second.store.apply('Rename', retitle('Four'));
      await vi.advanceTimersByTimeAsync(500);
      expect(await nextLife(disk, new FakeStorage())).toBe('Four');
    }
  });

  it('never writes over the only good copy, and sets the one it cannot read aside', async () => {
    const first = await openPage(main, parting);
    for (const title of ['One', 'Two']) {
      first.store.apply('Rename', retitle(title));
      await vi.advanceTimersByTimeAsync(500);
    }
    const newestKey = main.written.at(-1)?.key ?? '';
    const goodKey = main.written[0].key;
    const fromLater = (main.texts.get(newestKey) ?? '').replace('"formatVersion": 1', '"formatVersion": 9');
    main.texts.set(newestKey, fromLater);
    const good = main.texts.get(goodKey);

    const second = await openPage(main, parting);
    expect(second.store.getState().setup.title).toBe('One');
    second.store.apply('Rename', retitle('Three'));
    await vi.advanceTimersByTimeAsync(500);
    expect(main.texts.get(goodKey)).toBe(good);
    expect([...main.texts].filter(([, text]) => text === fromLater).map(([key]) => key)).toEqual([
      `keyglass:setup:set-aside:${newestKey.slice(-1)}`,
    ]);
    expect(await nextLife(main, parting)).toBe('Three');
  });

  it('never saves a read-only setup over the one that was worked on', async () => {
    const { store, hide } = await openPage(main, parting);
    store.apply('Rename', retitle('My work'));
    await vi.advanceTimersByTimeAsync(500);
    store.load(emptySetup(), { readOnlyReason: 'From a newer version.' });
    hide();
    await vi.advanceTimersByTimeAsync(5000);
    expect(await nextLife(main, parting)).toBe('My work');
  });

  it('keeps an edited setup as the previous one when another is opened, but not a mere look at a demo', async () => {
    const { store, generations } = await openPage(main, parting);
    store.apply('Rename', retitle('My work'));
    store.load({ ...emptySetup(), title: 'Demo 1' });
    store.load({ ...emptySetup(), title: 'Demo 2' });
    await vi.advanceTimersByTimeAsync(500);
    const previous = await generations.readPrevious();
    expect(previous.ok && previous.value?.setup.title).toBe('My work');
  });

  it('keeps a restored setup as the previous one although it was not edited in this life', async () => {
    const first = await openPage(main, parting);
    first.store.apply('Rename', retitle('My work'));
    await vi.advanceTimersByTimeAsync(500);
    const { store, generations } = await openPage(main, parting);
    store.load({ ...emptySetup(), title: 'Demo' });
    store.load(sampleSetup());
    await vi.advanceTimersByTimeAsync(500);
    const previous = await generations.readPrevious();
    expect(previous.ok && previous.value?.setup.title).toBe('My work');
  });

  it('says when it could not save, tries again, and then says that it did', async () => {
    const { store, statuses } = await openPage(main, parting);
    main.fault = FULL;
    store.apply('Rename', retitle('Wanted'));
    await vi.advanceTimersByTimeAsync(500);
    expect(statuses.at(-1)).toEqual({ kind: 'failed', fault: FULL });
    main.fault = null;
    await vi.advanceTimersByTimeAsync(6000);
    expect(statuses.at(-1)?.kind).toBe('saved');
    expect(await nextLife(main, parting)).toBe('Wanted');
  });

  it('has one write under way at a time, however slow the storage', async () => {
    main.writeDelayMs = 700;
    const { store, autosave } = await openPage(main, parting);
    for (let i = 0; i < 20; i++) {
      store.apply('Rename', retitle(`Title ${i}`));
      void autosave.flush();
      await vi.advanceTimersByTimeAsync(150);
    }
    await vi.advanceTimersByTimeAsync(3000);
    expect(main.mostWritingAtOnce).toBe(1);
    expect(await nextLife(main, parting)).toBe('Title 19');
  });

  it('stops for good when told to', async () => {
    const { store, autosave } = await openPage(main, parting);
    store.apply('Rename', retitle('Unsaved'));
    autosave.stop();
    store.apply('Rename', retitle('Unsaved too'));
    await vi.advanceTimersByTimeAsync(5000);
    expect(main.written).toEqual([]);
  });
});
