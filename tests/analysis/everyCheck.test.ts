import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ALL_CHECKS } from '../../src/analysis/allChecks.ts';
import { DEFAULT_LIMITS } from '../../src/analysis/limits.ts';
import { limitsSchema } from '../../src/document/setup.ts';

const docs = new URL('../../docs/checks/', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, docs), 'utf8');
const table = read('README.md')
  .split('\n')
  .filter((line) => /^\| \[/.test(line));
const rowOf = (check: string): string => table.find((line) => line.startsWith(`| [${check}](${check}.md)`)) ?? '';
const linksOf = (cell: string): string[] => [...cell.matchAll(/\]\(([^)]+)\)/g)].map(([, path]) => path);

describe.each(ALL_CHECKS)('the check %s', (check) => {
  it('has a page with its figure, its source, its limits and what it leaves out', () => {
    const page = read(`${check}.md`);
    for (const heading of [/^## Sources?$/m, /^## Limits$/m, /^## What it leaves out$/m]) expect(page).toMatch(heading);
    const sections = page.split(/^## /m).slice(1);
    expect(sections.length).toBeGreaterThanOrEqual(4);
    for (const section of sections) expect(section.split('\n').slice(1).join('').trim().length).toBeGreaterThan(20);
  });

  it('is in the table with files that exist', () => {
    for (const path of linksOf(rowOf(check))) expect(existsSync(new URL(path, docs)), path).toBe(true);
    expect(linksOf(rowOf(check)).length).toBeGreaterThanOrEqual(3);
  });

  it('has a reference test that names what it is held against', () => {
    const [, , , reference] = rowOf(check).split('|');
    const text = linksOf(reference).map(read).join('\n');
    expect(text).toContain('expect(');
    // A norm, a book, a library, a formula with its name, or the independent tracer.
    expect(text).toMatch(
      /CIE|ISO|IEC|NEC|colorjs|tracer|trace(Nits|At)|geometry|formula|handbook|projection|Gershun|latent|mirror/i,
    );
  });

  it('has a test in which it fires, one in which it stays quiet, and a property that holds for random sets', () => {
    const [, , , , own] = rowOf(check).split('|');
    const text = linksOf(own).map(read).join('\n');
    expect(text).toMatch(/'(note|care|stop)'|care\|stop/);
    expect(text).toMatch(/'ok'|toBeUndefined\(\)|toEqual\(\[\]\)/);
    expect(text).toContain('fc.assert(');
  });
});

describe('the limits of a frame', () => {
  const rows = ALL_CHECKS.flatMap((check) => {
    const section = read(`${check}.md`).split(/^## Limits$/m)[1] ?? '';
    return [...section.split(/^## /m)[0].matchAll(/^\| `(\w+)` \| ([^|]+) \| ([^|]+) \|$/gm)].map(
      ([, key, usual, why]) => ({
        key,
        usual: usual.trim(),
        why: why.trim(),
      }),
    );
  });

  it('are each on one page, with the default of the code and a reason', () => {
    expect(rows.map(({ key }) => key).sort()).toEqual(Object.keys(limitsSchema.shape).sort());
    const defaults: Readonly<Record<string, unknown>> = { ...DEFAULT_LIMITS };
    for (const { key, usual, why } of rows) {
      const value = defaults[key];
      const said = value === undefined ? 'none' : Array.isArray(value) ? 'empty' : value;
      if (typeof said === 'number') expect(Number(usual), key).toBeCloseTo(said, 4);
      else expect(usual, key).toBe(said);
      expect(why.length, key).toBeGreaterThan(5);
    }
  });

  it('reach the checks from the document: none is known to one and not to the other', () => {
    const optional = [
      'keyToFillMinStops',
      'keyToFillMaxStops',
      'subjectToBackgroundMinStops',
      'subjectToBackgroundMaxStops',
      'glowMinStops',
    ];
    expect([...Object.keys(DEFAULT_LIMITS), ...optional].sort()).toEqual(Object.keys(limitsSchema.shape).sort());
  });

  it('leave every check at least one to set', () => {
    for (const check of ALL_CHECKS)
      expect(read(`${check}.md`).split(/^## Limits$/m)[1], check).toMatch(/^\| `\w+` \|/m);
  });
});
