import { beforeEach, describe, expect, it, vi } from 'vitest';
import { keepLibrary } from '../../src/app/keepLibrary.ts';
import { createSetupLibrary } from '../../src/app/storage/setupLibrary.ts';
import { emptySetup } from '../../src/document/defaults.ts';
import { emptyTable } from '../../src/document/starting/index.ts';
import { documentStore } from '../../src/views/session/index.ts';
import { FakeStorage } from './storage/fakeStorage.ts';

const OPEN_KEY = 'keyglass:open-setup';
const texts = new Map<string, string>();

beforeEach(() => {
  texts.clear();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, text: string) => void texts.set(key, text),
  });
  documentStore.load(emptySetup());
});

const rename = (title: string) => documentStore.apply('Title', [{ op: 'setTitle', title }]);

describe('the setups of this browser', () => {
  it('take up what was restored under its own id', async () => {
    texts.set(OPEN_KEY, 'mine');
    const library = createSetupLibrary(new FakeStorage());
    const keeper = keepLibrary(library, true);
    rename('Mine, changed');
    await keeper.keepNow();
    expect(await library.list()).toMatchObject([{ id: 'mine', title: 'Mine, changed' }]);
  });

  it('never keep a demo that the address asked for in place of what was worked on before', async () => {
    texts.set(OPEN_KEY, 'mine');
    const library = createSetupLibrary(new FakeStorage());
    await library.put('mine', emptySetup(), 1);
    const keeper = keepLibrary(library, false);
    rename('A demo, changed');
    await keeper.keepNow();
    expect((await library.list()).map(({ title }) => title).sort()).toEqual(['A demo, changed', 'New setup']);
    expect((await library.list()).find(({ id }) => id === 'mine')?.title).toBe('New setup');
  });

  it('know a setup again that comes back after another has been open', async () => {
    const library = createSetupLibrary(new FakeStorage());
    const keeper = keepLibrary(library, false);
    rename('First');
    await keeper.keepNow();
    const firstId = keeper.openId();
    const first = documentStore.getState().setup;
    documentStore.load(emptyTable());
    expect(keeper.openId()).not.toBe(firstId);
    documentStore.load(first);
    expect(keeper.openId()).toBe(firstId);
  });
});
