import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode as decodeJpeg } from '@cwasm/jpeg-turbo';
import ExifReader from 'exifreader';
import { PNG } from 'pngjs';
import { afterAll, describe, expect, it } from 'vitest';
import { serializeSetup } from '../../src/document/codec.ts';
import { ROOT } from '../../tools/setup.mjs';
import { readCsv } from '../deliverables/helpers/readCsv.ts';
import { studioSetup } from '../deliverables/helpers/studioSetup.ts';

const folder = mkdtempSync(join(tmpdir(), 'keyglass-frame-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const setupFile = join(folder, 'tea.json');
writeFileSync(setupFile, serializeSetup(studioSetup()));

const frame = (...args: string[]) =>
  spawnSync(
    process.execPath,
    [join(ROOT, 'node_modules', 'tsx', 'dist', 'cli.mjs'), join(ROOT, 'tools', 'frame.ts'), setupFile, ...args],
    { cwd: folder, encoding: 'utf8' },
  );

describe('frame files', () => {
  it('writes a smoothed JPEG that says how far it was traced before it was smoothed', () => {
    const { status, stderr } = frame('--out', 'a.jpeg', '--width', '24', '--samples', '4', '--smooth');
    expect(status, stderr).toBe(0);
    const bytes = readFileSync(join(folder, 'a.jpeg'));
    const picture = decodeJpeg(bytes);
    expect([picture.width, picture.height]).toEqual([24, 16]);
    const { exif } = ExifReader.load(Uint8Array.from(bytes).buffer, { expanded: true });
    expect(exif?.UserComment).toMatchObject({
      description: expect.stringMatching(/ 4 samples a pixel, estimated error [\d.]+ % as traced, grain smoothed/),
    });
  });

  it('writes one round of the turntable as numbered pictures with their angles', () => {
    const { status, stderr } = frame(
      ...['--frame', 'Rotating close-up', '--turn', 'turn', '--turn-frames', '2', '--width', '24', '--samples', '1'],
      ...['--mark', 'highlight,run-out'],
    );
    expect(status, stderr).toBe(0);
    expect(readdirSync(join(folder, 'turn')).sort()).toEqual(['0001.png', '0002.png', 'angles.csv']);
    const picture = PNG.sync.read(readFileSync(join(folder, 'turn', '0002.png')));
    expect([picture.width, picture.height]).toEqual([24, 16]);
    const [heads, first, second] = readCsv(readFileSync(join(folder, 'turn', 'angles.csv'), 'utf8'));
    expect(heads[2]).toBe('Shutter opens at (\u00b0)');
    expect([first[2], second[2]]).toEqual(['0.0000', '180.0000']);
    // Where the hero is brightest, in the frame.
    for (const place of [first[5], first[6]]) {
      expect(Number(place)).toBeGreaterThan(0);
      expect(Number(place)).toBeLessThan(1);
    }
  });

  it.each([
    [['--turn', 'x', '--out', 'a.png'], '--out and --turn'],
    [['--out', 'a.jpg', '--linear'], 'JPEG has too few steps'],
    [['--out', 'a.exr', '--smooth'], 'not for measuring'],
    [['--out', 'a.png', '--delivery', '--width', '9'], '--delivery and --width'],
  ])('answers %j with one line and status 2', (args, words) => {
    const { status, stderr } = frame(...args);
    expect(status).toBe(2);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toContain(words);
  });
});
