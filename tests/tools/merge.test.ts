import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode } from 'fast-png';
import { afterAll, describe, expect, it } from 'vitest';
import { readFrameExr, readPfm } from '../../src/deliverables/image/index.ts';
import { emptySetup } from '../../src/document/defaults.ts';
import { fixtureSchema } from '../../src/fixtures/records.ts';
import { ROOT } from '../../tools/setup.mjs';

const folder = mkdtempSync(join(tmpdir(), 'keyglass-merge-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => join(folder, name);

const panel = fixtureSchema.parse({
  kind: 'panel',
  id: 'fixture:back',
  name: 'Back panel',
  positionM: [0, 0.5, -0.6],
  aimM: [0, 0, 0],
  widthM: 0.3,
  heightM: 0.3,
  output: { unit: 'lumens', value: 3000 },
});
const setup = { ...emptySetup(), title: 'Water, back-lit', fixtures: [panel] };
writeFileSync(at('setup.json'), JSON.stringify(setup));
writeFileSync(at('moved.json'), JSON.stringify({ ...setup, fixtures: [{ ...panel, positionM: [0, 0.6, -0.6] }] }));

const run = (tool: string, ...args: string[]) =>
  spawnSync(
    process.execPath,
    [join(ROOT, 'node_modules', 'tsx', 'dist', 'cli.mjs'), join(ROOT, 'tools', `${tool}.ts`), ...args],
    { cwd: folder, encoding: 'utf8' },
  );
const traceTo = (out: string, seed: number, setupFile = 'setup.json'): void => {
  const done = run('frame', setupFile, '--width', '24', '--samples', '2', '--seed', String(seed), '--out', out);
  expect(done.status, done.stderr).toBe(0);
};

describe('merge', () => {
  it('makes one picture of two traces, weighted by samples, in any format', () => {
    traceTo('one.exr', 1);
    traceTo('two.exr', 2);
    const { status, stderr, stdout } = run('merge', 'one.exr', 'two.exr', '--out', 'both.exr');
    expect(status, stderr).toBe(0);
    expect(stdout).toBe('both.exr\n');
    expect(stderr).toMatch(/^2 frames, 4 samples a pixel, estimated error [\d.]+ %$/m);
    const [one, two, both] = ['one.exr', 'two.exr', 'both.exr'].map((name) => {
      const read = readFrameExr(readFileSync(at(name)));
      if (!read.ok) throw new Error(read.error.message);
      return read.value;
    });
    expect(both.stamp).toMatchObject({ seeds: [1, 2], setupTitle: 'Water, back-lit', frameId: 'frame:1' });
    both.rgb.forEach((v, k) => {
      const mean = (one.rgb[k] + two.rgb[k]) / 2;
      expect(Math.abs(v - mean)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(mean)));
    });

    expect(run('merge', 'one.exr', 'two.exr', '--out', 'both.pfm').status).toBe(0);
    const pfm = readPfm(readFileSync(at('both.pfm')));
    expect(pfm.ok && pfm.value.rgb).toEqual(both.rgb);
    expect(run('merge', 'one.exr', 'two.exr', '--out', 'both.png').status).toBe(0);
    expect(decode(readFileSync(at('both.png')))).toMatchObject({ width: 24, height: 14, depth: 8 });
  });

  it('says in one line what does not belong together and stops with status 2', () => {
    traceTo('moved.exr', 3, 'moved.json');
    writeFileSync(at('text.exr'), 'no picture');
    for (const [args, words] of [
      [['one.exr', 'one.exr', '--out', 'x.exr'], /one\.exr and one\.exr both hold seed 1,.*--seed/],
      [['one.exr', 'moved.exr', '--out', 'x.exr'], /one\.exr and moved\.exr show different setups/],
      [['one.exr', 'text.exr', '--out', 'x.exr'], /text\.exr: EXR magic number missing/],
      [['one.exr', 'nowhere.exr', '--out', 'x.exr'], /nowhere\.exr: no such file/],
      [['one.exr', '--out', 'x.exr'], /two frames or more/],
      [['one.exr', 'two.exr'], /--out is missing/],
      [['one.exr', 'two.exr', '--out', 'x.gif'], /end the name in \.png/],
    ] as const) {
      const { status, stderr, stdout } = run('merge', ...args);
      expect(stderr).toMatch(words);
      expect(stderr.trimEnd()).not.toContain('\n');
      expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    }
  });
});
