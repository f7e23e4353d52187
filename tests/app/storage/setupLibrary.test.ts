import { expect, test } from 'vitest';
import { createSetupLibrary } from '../../../src/app/storage/setupLibrary.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import { FakeStorage, FULL } from './fakeStorage.ts';

const named = (title: string) => ({ ...emptySetup(), title });

test('setups come back as they were put, the last changed first', async () => {
  const library = createSetupLibrary(new FakeStorage());
  await library.put('a', named('First'), 1000);
  await library.put('b', named('Second'), 2000);
  await library.put('a', named('First, changed'), 3000);
  expect((await library.list()).map(({ id, title }) => [id, title])).toEqual([
    ['a', 'First, changed'],
    ['b', 'Second'],
  ]);
  expect(await library.read('b')).toEqual({ ok: true, value: named('Second') });
});

test('two changes at once lose neither', async () => {
  const storage = new FakeStorage();
  storage.writeDelayMs = 1;
  const library = createSetupLibrary(storage);
  await Promise.all([
    library.put('a', named('A'), 1),
    library.put('b', named('B'), 2),
    library.put('c', named('C'), 3),
  ]);
  expect((await library.list()).map(({ id }) => id)).toEqual(['c', 'b', 'a']);
});

test('what is removed is gone with its picture, and can be put back', async () => {
  const storage = new FakeStorage();
  const library = createSetupLibrary(storage);
  await library.put('a', named('A'), 1);
  await library.putPicture('a', 'data:image/webp;base64,AA==');
  const kept = await library.read('a');
  await library.remove('a');
  expect(await library.list()).toEqual([]);
  expect((await library.read('a')).ok).toBe(false);
  expect(await library.readPicture('a')).toBeNull();
  if (kept.ok) await library.put('a', kept.value, 2);
  expect(await library.list()).toHaveLength(1);
});

test('a list that was cut short reads as empty, and a full storage says so', async () => {
  const storage = new FakeStorage();
  const library = createSetupLibrary(storage);
  storage.texts.set('keyglass:library', '[{"id":"a","ti');
  expect(await library.list()).toEqual([]);
  storage.fault = FULL;
  expect(await library.put('a', named('A'), 1)).toEqual({ ok: false, error: FULL });
});
