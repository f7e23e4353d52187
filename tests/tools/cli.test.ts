import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode } from 'fast-png';
import { afterAll, describe, expect, it } from 'vitest';
import { ALL_CHECKS } from '../../src/analysis/index.ts';
import { readExr, readPfm } from '../../src/deliverables/image/index.ts';
import { emptySetup } from '../../src/document/defaults.ts';
import { fixtureSchema } from '../../src/fixtures/records.ts';
import { openFrame } from '../../tools/cli/openFrame.ts';
import { parseCommandLine, positiveNumber, wholeNumber } from '../../tools/cli/options.ts';
import { ROOT } from '../../tools/setup.mjs';

const folder = mkdtempSync(join(tmpdir(), 'keyglass-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string): string => join(folder, name);
function fileOf(name: string, text: string): string {
  writeFileSync(at(name), text);
  return at(name);
}

/** A highball on a matte table, lit from behind by a panel that the camera sees above the glass. */
const back = fixtureSchema.parse({
  kind: 'panel',
  id: 'fixture:back',
  name: 'Back panel',
  positionM: [0, 0.5, -0.6],
  aimM: [0, 0, 0],
  widthM: 0.3,
  heightM: 0.3,
  output: { unit: 'lumens', value: 3000 },
});
const key = fixtureSchema.parse({
  ...back,
  id: 'fixture:key',
  name: 'Key',
  positionM: [-0.8, 0.8, 0.6],
  cctK: 3200,
  dimStops: -1,
});
const spare = fixtureSchema.parse({
  ...back,
  id: 'fixture:spare',
  name: 'Spare',
  positionM: [0.8, 0.8, 0.6],
  on: false,
});
const setup = { ...emptySetup(), title: 'Water, back-lit', fixtures: [back, key, spare] };
const setupFile = fileOf('lit.json', JSON.stringify(setup));

const command = (tool: string, args: readonly string[]): string[] => [
  join(ROOT, 'node_modules', 'tsx', 'dist', 'cli.mjs'),
  join(ROOT, 'tools', `${tool}.ts`),
  ...args,
];
const run = (tool: string, ...args: string[]) =>
  spawnSync(process.execPath, command(tool, args), { cwd: folder, encoding: 'utf8' });

describe('report', () => {
  it('prints findings and figures as JSON; status 1 for a finding graded "stop", 0 without one', () => {
    const full = run('report', setupFile, '--json');
    const report = JSON.parse(full.stdout);
    expect(report).toMatchObject({ setup: 'Water, back-lit', frame: 'frame:1' });
    // The back panel hangs in plain view of the lens, so flare is graded "stop".
    expect(report.findings).toContainEqual(
      expect.objectContaining({ check: 'flare', grade: 'stop', subject: 'fixture:back', value: expect.any(Number) }),
    );
    for (const finding of report.findings) {
      expect(Object.keys(finding)).toEqual(
        expect.arrayContaining(['check', 'grade', 'subject', 'value', 'unit', 'limit', 'summary', 'where']),
      );
    }
    expect(Object.keys(report.figures)).toEqual([...ALL_CHECKS]);
    expect(full.status).toBe(1);

    const text = run('report', setupFile, '--check', 'reflections', '--frame', 'Frame 1');
    expect(text.stdout).toContain('Water, back-lit: Frame 1');
    expect(text.stdout).toMatch(/^grade {2}check/m);
    expect(text.stdout).not.toContain('flare');
    expect(text.status).toBe(0);
  });

  it('says in one line what is wrong and stops with status 2', () => {
    for (const [args, words] of [
      [['nowhere.json'], /nowhere\.json: no such file/],
      [[setupFile, '--colour'], /--colour.*use: npm run -s report/],
      [[setupFile, '--check', 'shadow'], /--check shadow: no such check; there are reflections, .*exposure/],
    ] as const) {
      const { status, stderr, stdout } = run('report', ...args);
      expect(stderr).toMatch(words);
      expect(stderr.trimEnd()).not.toContain('\n');
      expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    }
  });
});

describe('frame', () => {
  it('writes an EXR whose lit layers add up to its picture, the same for the same seed, and layers as files', () => {
    const args = [setupFile, '--width', '24', '--samples', '2', '--seed', '5', '--layers', at('shares')];
    const { status, stderr, stdout } = run('frame', ...args, '--out', at('a.exr'));
    expect(status, stderr).toBe(0);
    expect(stderr).toMatch(/2 of 2 samples, estimated error [\d.]+ %/);
    expect(stdout.split('\n')).toEqual([
      at('a.exr'),
      join(at('shares'), 'fixture.back.exr'),
      join(at('shares'), 'fixture.key.exr'),
      '',
    ]);

    const exr = readExr(readFileSync(at('a.exr')));
    if (!exr.ok) throw new Error(exr.error.message);
    // 36 x 20.25 mm: 24 px wide is 13.5, rounded 14 high.
    expect([exr.value.widthPx, exr.value.heightPx]).toEqual([24, 14]);
    const channel = (name: string): Float32Array => {
      const found = exr.value.channels.find((c) => c.name === name);
      if (!found) throw new Error(`no channel ${name}`);
      return found.samples;
    };
    // The fixture that is off has no layer.
    expect(exr.value.channels.map(({ name }) => name)).toEqual([
      'B',
      'G',
      'R',
      'fixture:back.B',
      'fixture:back.G',
      'fixture:back.R',
      'fixture:key.B',
      'fixture:key.G',
      'fixture:key.R',
      'luminanceError',
      'samples',
    ]);
    expect(channel('samples').every((n) => n === 2)).toBe(true);
    channel('G').forEach((sum, i) => {
      const parts = channel('fixture:back.G')[i] + channel('fixture:key.G')[i];
      expect(Math.abs(sum - parts)).toBeLessThanOrEqual(1e-5 * Math.max(1, Math.abs(sum)));
    });
    expect(exr.value.attributes).toMatchObject({ whiteLuminance: 1, setup: 'Water, back-lit', samplesPerPixel: 2 });

    expect(run('frame', ...args, '--out', at('a.pfm')).status).toBe(0);
    const pfm = readPfm(readFileSync(at('a.pfm')));
    if (!pfm.ok) throw new Error(pfm.error.message);
    channel('G').forEach((g, i) => {
      expect(Math.abs(pfm.value.rgb[i * 3 + 1] - g)).toBeLessThanOrEqual(1e-5 * Math.max(1, Math.abs(g)));
    });
  });

  it('writes 8-bit PNG developed for the camera and 16-bit PNG without the curve', () => {
    const shape = [setupFile, '--height', '9', '--samples', '1'];
    expect(run('frame', ...shape, '--out', at('a.png')).status).toBe(0);
    expect(decode(readFileSync(at('a.png')))).toMatchObject({ width: 16, height: 9, depth: 8, channels: 3 });
    expect(run('frame', ...shape, '--linear', '--out', at('b.png')).status).toBe(0);
    expect(decode(readFileSync(at('b.png')))).toMatchObject({ width: 16, height: 9, depth: 16, channels: 3 });
  });

  it.skipIf(process.platform === 'win32')('writes what it has when it is interrupted', async () => {
    const args = [setupFile, '--out', at('cut.png'), '--width', '32', '--samples', '1000000'];
    const child = spawn(process.execPath, command('frame', args), { cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] });
    child.stderr.once('data', () => child.kill('SIGINT'));
    const status = await new Promise((resolve) => child.once('exit', resolve));
    expect(status).toBe(0);
    expect(decode(readFileSync(at('cut.png')))).toMatchObject({ width: 32, height: 18 });
  });

  it('refuses bad flags before it traces', () => {
    for (const [args, words] of [
      [[setupFile], /--out is missing/],
      [[setupFile, '--out', at('a.bmp')], /--out .*a\.bmp: end the name in \.png, \.jpg, \.tif, \.exr, \.pfm/],
      [[setupFile, '--out', at('a.png'), '--samples', '3', '--seconds', '2'], /give one of them/],
    ] as const) {
      const { status, stderr } = run('frame', ...args);
      expect(stderr).toMatch(words);
      expect(status).toBe(2);
    }
  });
});

describe('openFrame', () => {
  const changed = (change: object): string => JSON.stringify({ ...setup, ...change });

  it.each([
    ['malformed JSON', '{ "format": ', /line 1, column \d+/],
    ['NaN', changed({ title: 'x' }).replace('"value":3000', '"value":NaN'), /line 1, column \d+/],
    ['infinity', changed({}).replace('"value":3000', '"value":1e999'), /fixtures\[0\].*output\.value/],
    ['another format', '{ "format": "scene" }', /"format"/],
    ['a newer version', changed({ formatVersion: 99 }), /version 99/],
    [
      'a negative size',
      changed({ fixtures: [{ ...back, widthM: -0.3 }] }),
      /fixtures\[0\] "Back panel": widthM must be more than 0/,
    ],
    [
      'a focus inside the lens',
      changed({ frames: [{ ...setup.frames[0], camera: { ...setup.frames[0].camera, focusDistanceM: -1 } }] }),
      /focusDistanceM/,
    ],
  ])('refuses %s and names the place', (name, text, words) => {
    const file = fileOf(`${name.replaceAll(' ', '-')}.json`, text);
    expect(() => openFrame(file, undefined)).toThrow(words);
  });

  it('refuses 21 MB before reading them, a folder, and a frame that is not there', () => {
    const huge = fileOf('huge.json', '');
    truncateSync(huge, 21 * 2 ** 20);
    expect(() => openFrame(huge, undefined)).toThrow(/21 MB, a setup has 20 MB at most/);
    mkdirSync(at('folder.json'));
    expect(() => openFrame(at('folder.json'), undefined)).toThrow(/not a file/);
    expect(() => openFrame(setupFile, 'Close-up')).toThrow(/no frame "Close-up"; this setup has "Frame 1"/);
  });
});

describe('options', () => {
  it('refuses a negative, broken or missing number and says what will do', () => {
    expect(() => wholeNumber('--width', '-5', 1, 8192)).toThrow('--width -5: give a whole number from 1 to 8192');
    expect(() => wholeNumber('--width', '1.5', 1, 8192)).toThrow('whole number');
    expect(() => wholeNumber('--width', 'NaN', 1, 8192)).toThrow('whole number');
    expect(() => positiveNumber('--seconds', '0', 10)).toThrow('--seconds 0: give a number over 0, up to 10');
    expect(() => positiveNumber('--seconds', 'Infinity', 10)).toThrow('--seconds Infinity');
    expect(wholeNumber('--width', undefined, 1, 2)).toBeUndefined();
    expect(() => parseCommandLine(['a.json', 'b.json'], {}, 'x')).toThrow('one setup file at a time');
    expect(() => parseCommandLine([], {}, 'x')).toThrow('no setup file given; use: x');
  });
});
