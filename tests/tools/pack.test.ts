import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { decode } from 'fast-png';
import { PDFDocument } from 'pdf-lib';
import { afterAll, describe, expect, it } from 'vitest';
import { parseSetup, serializeSetup } from '../../src/document/codec.ts';
import { ROOT } from '../../tools/setup.mjs';
import { readCsv } from '../deliverables/helpers/readCsv.ts';
import { readMarkup } from '../deliverables/helpers/readMarkup.ts';
import { studioSetup } from '../deliverables/helpers/studioSetup.ts';

const folder = mkdtempSync(join(tmpdir(), 'keyglass-pack-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const setupFile = join(folder, 'tea.json');
writeFileSync(setupFile, serializeSetup(studioSetup()));

const pack = (...args: string[]) =>
  spawnSync(
    process.execPath,
    [join(ROOT, 'node_modules', 'tsx', 'dist', 'cli.mjs'), join(ROOT, 'tools', 'pack.ts'), ...args],
    { cwd: folder, encoding: 'utf8' },
  );

const filesUnder = (dir: string): string[] =>
  readdirSync(dir, { recursive: true, encoding: 'utf8' })
    .map((name) => join(dir, name))
    .filter((path) => statSync(path).isFile())
    .map((path) => relative(dir, path))
    .sort();

describe('pack', () => {
  it('writes plans, sheets and exchange files without tracing, and says what it wrote', async () => {
    const out = join(folder, 'papers');
    const { status, stdout, stderr } = pack(
      setupFile,
      '--out',
      out,
      '--only',
      'plan,sheets,exchange',
      '--date',
      '2026-04-18',
    );
    expect(stderr.split('\n').filter((l) => l !== '' && !l.startsWith('Note:'))).toEqual([]);
    expect(status).toBe(0);
    const files = filesUnder(out);
    expect(
      stdout
        .trim()
        .split('\n')
        .map((path) => relative(out, path))
        .sort(),
    ).toEqual(files);
    expect(files).toEqual(
      [
        'exchange/1-wide.glb',
        'exchange/1-wide.gltf',
        'exchange/2-rotating-close-up.glb',
        'exchange/2-rotating-close-up.gltf',
        'exchange/findings.csv',
        'exchange/iced-tea-on-paper.json',
        'papers-a4.pdf',
        'papers-letter.pdf',
        ...['1-wide', '2-rotating-close-up'].flatMap((stem) => [
          `plan/${stem}-front-elevation.svg`,
          `plan/${stem}-plan.svg`,
          `plan/${stem}-side-elevation.svg`,
          `sheets/${stem}-fixture-schedule.csv`,
          `sheets/${stem}-grip-schedule.csv`,
          `sheets/${stem}-meter-sheet-each-light.csv`,
          `sheets/${stem}-meter-sheet.csv`,
        ]),
        'plan/plans-a4.pdf',
        'plan/plans-letter.pdf',
        ...[
          'build-order',
          'cautions',
          'circuits',
          'hero-clock',
          'kit-list',
          'power',
          'shot-list',
          'stands-and-weights',
        ].map((id) => `sheets/${id}.csv`),
      ].sort(),
    );
    for (const file of files.filter((name) => name.endsWith('.csv'))) {
      const [heads, ...rows] = readCsv(readFileSync(join(out, file), 'utf8'));
      for (const row of rows) expect(row, file).toHaveLength(heads.length);
    }
    for (const file of files.filter((name) => name.endsWith('.svg'))) readMarkup(readFileSync(join(out, file), 'utf8'));
    const plans = await PDFDocument.load(readFileSync(join(out, 'plan/plans-a4.pdf')));
    expect(plans.getPageCount()).toBe(6);
    const back = parseSetup(readFileSync(join(out, 'exchange/iced-tea-on-paper.json'), 'utf8'));
    expect(back.ok && back.value.setup).toEqual(studioSetup());
    expect(existsSync(join(out, 'frames'))).toBe(false);
  });

  it('packs several setups at once, each into a folder named after its file', () => {
    writeFileSync(join(folder, 'second.json'), serializeSetup({ ...studioSetup(), title: 'Second' }));
    const out = join(folder, 'several');
    const { status } = pack(setupFile, 'second.json', '--out', out, '--only', 'plan', '--date', '2026-04-18');
    expect(status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['second', 'tea']);
    expect(filesUnder(join(out, 'second'))).toEqual(filesUnder(join(out, 'tea')));
    const twice = pack(setupFile, setupFile, '--out', out, '--only', 'plan');
    expect([twice.status, twice.stderr]).toEqual([2, expect.stringContaining('rename a file')]);
  });

  it('traces small frames, the client page with an alternative, and two pictures of the turn', () => {
    const other = structuredClone(studioSetup());
    other.title = 'Softer key';
    writeFileSync(join(folder, 'other.json'), serializeSetup(other));
    const out = join(folder, 'pictures');
    const small = ['--samples', '1', '--width', '24', '--turn-frames', '2', '--blur-steps', '2'];
    const { status, stderr } = pack(
      setupFile,
      '--out',
      out,
      '--only',
      'frames,client,turn',
      '--alternative',
      'other.json',
      ...small,
    );
    expect(stderr).not.toMatch(/Error/);
    expect(status).toBe(0);
    expect(filesUnder(out)).toEqual([
      'client.html',
      ...['1-wide', '2-rotating-close-up'].flatMap((stem) =>
        ['jpg', 'png', 'tif'].map((end) => `frames/${stem}.${end}`),
      ),
      ...['before-after-softer-key', 'contact-sheet', 'light-by-light'].flatMap((name) =>
        ['a4', 'letter'].map((paper) => `frames/${name}-${paper}.pdf`),
      ),
      'turn/2-rotating-close-up/0001.png',
      'turn/2-rotating-close-up/0002.png',
      'turn/2-rotating-close-up/angles.csv',
    ]);
    const wide = decode(readFileSync(join(out, 'frames/1-wide.png')));
    expect([wide.width, wide.height]).toEqual([24, 16]);
    expect(wide.data.some((value) => value > 0)).toBe(true);
    const { tags, text } = readMarkup(readFileSync(join(out, 'client.html'), 'utf8'));
    expect(tags.filter(({ name }) => name === 'img')).toHaveLength(4);
    expect(text).toContain('Softer key');
    const [, first, second] = readCsv(readFileSync(join(out, 'turn/2-rotating-close-up/angles.csv'), 'utf8'));
    expect([first[2], second[2]]).toEqual(['0.0000', '180.0000']);
    // 36 degrees a second for 1/48 s.
    expect(first[3]).toBe('0.7500');
    const picture = decode(readFileSync(join(out, 'turn/2-rotating-close-up/0002.png')));
    expect([picture.width, picture.height]).toEqual([24, 16]);
  });

  it.each([
    [['--out', 'x', '--only', 'plans'], '--only plans: there are plan, sheets'],
    [['--only', 'plan'], '--out is missing'],
    [['--out', 'x', '--date', 'today'], 'YYYY-MM-DD'],
    [['--out', 'x', '--samples', '0'], '--samples 0'],
    [['--out', 'x', '--mark', 'wobble'], '--mark wobble: there are highlight, run-out'],
    [['--out', join('tea.json', 'x'), '--only', 'plan'], 'part of the path is not a folder'],
  ])('answers %j with one line and status 2', (args, words) => {
    const { status, stderr } = pack(setupFile, ...args);
    expect(status).toBe(2);
    const lines = stderr
      .trim()
      .split('\n')
      .filter((l) => !l.startsWith('Note:'));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(words);
  });
});
