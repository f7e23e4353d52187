import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseSetup } from '../../src/document/codec.ts';
import { type MigrationStep, migrateSetup } from '../../src/document/migrations/migrate.ts';
import { MIGRATION_STEPS } from '../../src/document/migrations/steps.ts';
import { SETUP_FORMAT_VERSION } from '../../src/document/setup.ts';

const frozenPath = (version: number): URL => new URL(`./migrations/frozen/v${version}.json`, import.meta.url);
const versions = Array.from({ length: SETUP_FORMAT_VERSION }, (_, i) => i + 1);

describe('migrations of the setup format', () => {
  it.each(versions)('version %i has a frozen example, and it opens [M1]', (version) => {
    expect(existsSync(frozenPath(version))).toBe(true);
    const text = readFileSync(frozenPath(version), 'utf8');
    expect(JSON.parse(text).formatVersion).toBe(version);
    const opened = parseSetup(text);
    expect(opened.ok ? opened.value.fromVersion : opened.error.message).toBe(version);
  });

  it('has exactly one step from each older version [M2]', () => {
    expect(MIGRATION_STEPS.map((step) => step.from)).toEqual(versions.slice(0, -1));
  });
});

describe('migrateSetup with made-up steps', () => {
  const steps: readonly MigrationStep[] = [
    {
      from: 1,
      summary: 'stops for watts',
      migrate: ({ watts, ...rest }) => ({ ...rest, stops: Math.log2(Number(watts)) }),
    },
    {
      from: 2,
      summary: 'lists the stops',
      migrate: (document) => {
        if (typeof document.stops !== 'number') throw new TypeError('no stops');
        return { ...document, stops: [document.stops] };
      },
    },
  ];

  it('runs every step in order from the version of the file on [M3]', () => {
    expect(migrateSetup({ formatVersion: 1, watts: 8, title: 'a' }, 1, 3, steps)).toEqual({
      ok: true,
      value: { formatVersion: 3, stops: [3], title: 'a' },
    });
    expect(migrateSetup({ formatVersion: 2, stops: 5 }, 2, 3, steps)).toEqual({
      ok: true,
      value: { formatVersion: 3, stops: [5] },
    });
  });

  it('leaves a document of the present version, and the one it was given, as they are', () => {
    const document = Object.freeze({ formatVersion: 3, stops: [1] });
    const result = migrateSetup(document, 3, 3, steps);
    expect(result.ok && result.value).toBe(document);
    const careless: MigrationStep = { from: 1, summary: '', migrate: (old) => Object.assign(old, { extra: 1 }) };
    const original = { formatVersion: 1, watts: 8 };
    migrateSetup(original, 1, 2, [careless]);
    expect(original).toEqual({ formatVersion: 1, watts: 8 });
  });

  it('fails with one sentence when a step cannot read what it gets [M4]', () => {
    const result = migrateSetup({ formatVersion: 2, title: 'no stops' }, 2, 3, steps);
    expect(result).toEqual({
      ok: false,
      error:
        'The file is of format version 2 and could not be brought from version 2 to 3: it does not hold what that version should.',
    });
  });

  it('throws when a step is missing, which only code can cause', () => {
    expect(() => migrateSetup({ formatVersion: 1, watts: 8 }, 1, 4, steps)).toThrow(
      /no migration leads from format version 3 to 4/,
    );
  });
});
