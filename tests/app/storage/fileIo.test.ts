import { describe, expect, it, vi } from 'vitest';
import {
  type FileFault,
  type FilePort,
  fileFromDrop,
  fileNameFor,
  openSetupFile,
  readSetupFile,
  type SetupFileTarget,
  saveSetupFile,
} from '../../../src/app/storage/fileIo.ts';
import { fail, ok, type Result } from '../../../src/core/result.ts';
import { serializeSetup } from '../../../src/document/codec.ts';
import { sampleSetup } from '../../document/sampleSetup.ts';

const fileOf = (content: BlobPart, name = 'setup.json') => new File([content], name);

/** A place on disk in memory. */
function fakeTarget(outcome: Result<void, FileFault> = ok(undefined)): SetupFileTarget & { texts: string[] } {
  const texts: string[] = [];
  return {
    name: 'setup.json',
    texts,
    async write(text) {
      texts.push(text);
      return outcome;
    },
  };
}

const port = (parts: Partial<FilePort>): FilePort => ({
  pickFile: async () => ok(null),
  download: () => ok(undefined),
  ...parts,
});

describe('opening a setup file', () => {
  it('gives back the very setup that was saved, and where to save it again', async () => {
    const target = fakeTarget();
    const file = fileOf(serializeSetup(sampleSetup()), 'mine.json');
    const opened = await openSetupFile(port({ pickFile: async () => ok({ file, target }) }));
    expect(opened).toEqual({ ok: true, value: { setup: sampleSetup(), fromVersion: 1, name: 'mine.json', target } });
  });

  it('gives null when the person changes their mind', async () => {
    expect(await openSetupFile(port({}))).toEqual({ ok: true, value: null });
  });

  it('refuses 100 MB by its size alone, without reading it', async () => {
    const arrayBuffer = vi.fn(async () => new ArrayBuffer(0));
    const result = await readSetupFile({ name: 'film.mov', size: 100e6, arrayBuffer });
    expect(!result.ok && result.error).toEqual({
      kind: 'tooLarge',
      message: '"film.mov" has 100 MB; a setup has at most 24 MB. Choose a setup file.',
    });
    expect(arrayBuffer).not.toHaveBeenCalled();
  });

  it.each<[string, BlobPart, string, RegExp]>([
    ['a picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe]), 'notText', /not a text file in UTF-8/],
    ['broken JSON', '{"format": ', 'notJson', /line 1, column 12/],
    ['other JSON', '{"name": "x"}', 'notASetup', /not a Keyglass setup/],
    [
      'a bad field',
      serializeSetup(sampleSetup()).replace('"dimStops": -1', '"dimStops": 4'),
      'invalid',
      /dimStops must be at most 0; it is 4/,
    ],
  ])('says what is wrong with %s', async (_, content, kind, message) => {
    const result = await readSetupFile(fileOf(content));
    expect(!result.ok && result.error.kind).toBe(kind);
    expect(!result.ok && result.error.message).toMatch(message);
  });

  it('says so when the file has gone in the meantime', async () => {
    const arrayBuffer = () => Promise.reject(new DOMException('gone', 'NotFoundError'));
    const result = await readSetupFile({ name: 'gone.json', size: 10, arrayBuffer });
    expect(!result.ok && result.error.message).toMatch(/"gone.json" could not be read/);
  });

  it('takes one dropped file, not none or two', () => {
    const file = fileOf('{}');
    expect(fileFromDrop([file])).toEqual({ ok: true, value: file });
    expect(fileFromDrop([]).ok).toBe(false);
    expect(fileFromDrop([file, file])).toMatchObject({ error: { message: 'Drop one setup file at a time.' } });
  });
});

describe('saving a setup file', () => {
  it('writes to the place it came from without asking', async () => {
    const target = fakeTarget();
    const pickTarget = vi.fn();
    const saved = await saveSetupFile(port({ pickTarget }), sampleSetup(), target);
    expect(saved).toEqual({ ok: true, value: { saved: true, target } });
    expect(target.texts).toEqual([serializeSetup(sampleSetup())]);
    expect(pickTarget).not.toHaveBeenCalled();
  });

  it('asks for a place when there is none, by the title as a name', async () => {
    const target = fakeTarget();
    const pickTarget = vi.fn(async () => ok(target));
    const saved = await saveSetupFile(port({ pickTarget }), { ...sampleSetup(), title: 'Thé glacé, n° 2' });
    expect(saved.ok && saved.value.target).toBe(target);
    expect(pickTarget).toHaveBeenCalledWith('the-glace-n-2.json');
  });

  it('downloads where the browser can do no more', async () => {
    const download = vi.fn(() => ok(undefined));
    expect(await saveSetupFile(port({ download }), sampleSetup())).toEqual({ ok: true, value: { saved: true } });
    expect(download).toHaveBeenCalledWith('sample.json', serializeSetup(sampleSetup()));
  });

  it('is not saved when the person changes their mind or the disk refuses', async () => {
    const changed = await saveSetupFile(port({ pickTarget: async () => ok(null) }), sampleSetup());
    expect(changed).toEqual({ ok: true, value: { saved: false } });
    const fault: FileFault = { kind: 'notAllowed', message: 'No.' };
    expect(await saveSetupFile(port({}), sampleSetup(), fakeTarget(fail(fault)))).toEqual({ ok: false, error: fault });
  });

  it.each([
    ['Tonic on gloss black', 'tonic-on-gloss-black.json'],
    ['../../etc/passwd', 'etc-passwd.json'],
    ['***', 'setup.json'],
    ['柚子', '柚子.json'],
  ])('names the file of "%s" %s', (title, name) => {
    expect(fileNameFor(title)).toBe(name);
  });
});
