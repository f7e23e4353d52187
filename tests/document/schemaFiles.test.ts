import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findStaleFiles, generateSchemaFiles } from '../../tools/gen-schema.ts';
import { buildSetupJsonSchema } from '../../tools/schema/setupJsonSchema.ts';

describe('files written from the schema', () => {
  it('are up to date; if not, run: npx tsx tools/gen-schema.ts', () => {
    expect(findStaleFiles()).toEqual([]);
  });

  it('are found stale when a single letter differs', () => {
    const [schema, docs] = generateSchemaFiles();
    expect(findStaleFiles([{ ...schema, text: schema.text.replace('Keyglass', 'Keyglas') }, docs])).toEqual([
      'assets/setup.schema.json',
    ]);
  });

  it('refuse unknown fields in every object that has named ones, as the reader does', () => {
    const open: string[] = [];
    const visit = (value: unknown, path: string): void => {
      if (typeof value !== 'object' || value === null) return;
      if ('properties' in value && Reflect.get(value, 'additionalProperties') !== false) open.push(path);
      for (const [key, inner] of Object.entries(value)) visit(inner, `${path}/${key}`);
    };
    visit(buildSetupJsonSchema(), '');
    // One field of a record happens to be called "properties" nowhere, so every hit is a real object schema.
    expect(open).toEqual([]);
  });

  it('hold a table for every kind of piece, fixture and grip', () => {
    const docs = readFileSync(new URL('../../docs/setup-format.md', import.meta.url), 'utf8');
    for (const kind of ['glass', 'sheet', 'wall', 'panel', 'spot', 'softbox', 'flag', 'bounceCard', 'diffusionFrame']) {
      expect(docs).toMatch(new RegExp(`^#### .* of kind \`${kind}\`$`, 'm'));
    }
  });
});

describe('SPEC.md', () => {
  const spec = readFileSync(new URL('../../src/document/SPEC.md', import.meta.url), 'utf8');
  const rules = new Set([...spec.matchAll(/^- ([A-Z]\d+)\. /gm)].map((match) => match[1]));

  it('has every rule that a test cites', () => {
    const tests = readdirSync(new URL('.', import.meta.url)).filter((name) => name.endsWith('.test.ts'));
    const cited = tests.flatMap((name) => {
      const text = readFileSync(new URL(name, import.meta.url), 'utf8');
      return [...text.matchAll(/\[([DCHRFMTL]\d+)\]'/g)].map((match) => match[1]);
    });
    expect(cited.length).toBeGreaterThan(25);
    expect(cited.filter((rule) => !rules.has(rule))).toEqual([]);
  });
});
