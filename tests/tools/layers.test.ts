import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { findLayerViolations } from '../../tools/check-layers.mjs';

const roots: string[] = [];
afterEach(() => {
  for (const root of roots.splice(0)) rmSync(root, { recursive: true, force: true });
});

function violationsOf(files: Record<string, string>): string[] {
  const root = mkdtempSync(join(tmpdir(), 'keyglass-layers-'));
  roots.push(root);
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), text);
  }
  return findLayerViolations(root);
}

const AB = {
  'src/core/a.ts': 'export const a = 1;\nexport type A = number;\n',
  'src/scene/b.ts': 'export const b = 1;\n',
};

describe('findLayerViolations', () => {
  it('accepts imports that point up', () => {
    expect(
      violationsOf({ ...AB, 'src/scene/c.ts': "import { a } from '../core/a.ts';\nexport const c = a;\n" }),
    ).toEqual([]);
  });

  it.each([
    ['a value from a lower folder', 'src/core/x.ts', "import { b } from '../scene/b.ts';\nexport const x = b;\n"],
    [
      'a type from a lower folder',
      'src/core/x.ts',
      "import type { b } from '../scene/b.ts';\nexport type X = typeof b;\n",
    ],
    ['an inline type from a lower folder', 'src/core/x.ts', "export type X = typeof import('../scene/b.ts');\n"],
    [
      'a lower folder when it is needed only later',
      'src/core/x.ts',
      "export const x = () => import('../scene/b.ts');\n",
    ],
    ['a worker of a lower folder', 'src/core/x.ts', "export const x = new URL('../scene/b.ts', import.meta.url);\n"],
    ['three outside views', 'src/app/x.ts', "import { Vector3 } from 'three';\nexport const x = Vector3;\n"],
    [
      'react in deliverables',
      'src/deliverables/x.tsx',
      "import { useState } from 'react';\nexport const x = useState;\n",
    ],
    [
      'Node in a pure folder',
      'src/core/x.ts',
      "import { readFileSync } from 'node:fs';\nexport const x = readFileSync;\n",
    ],
    ['a file that is not there', 'src/core/x.ts', "import { a } from './a';\nexport const x = a;\n"],
    ['tools from src', 'src/app/x.ts', "import { t } from '../../tools/t.ts';\nexport const x = t;\n"],
  ])('refuses %s', (_name, file, text) => {
    const found = violationsOf({ ...AB, 'tools/t.ts': 'export const t = 1;\n', [file]: text });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(`${file}: imports `);
  });

  it.each([
    ['cpu', 'gpu'],
    ['gpu', 'cpu'],
    ['layout', 'kernels'],
    ['kernels', 'compile'],
    ['compile', 'cpu'],
    ['cpu', 'workers'],
  ])('refuses transport/%s importing transport/%s', (from, to) => {
    const found = violationsOf({
      [`src/transport/${to}/y.ts`]: 'export const y = 1;\n',
      [`src/transport/${from}/x.ts`]: `import { y } from '../${to}/y.ts';\nexport const x = y;\n`,
    });
    expect(found).toHaveLength(1);
  });

  it('refuses the own barrel, a circle, chance in a pure folder, and 801 lines', () => {
    const found = violationsOf({
      'src/core/index.ts': "export * from './a.ts';\n",
      'src/core/a.ts': 'export const a = () => Math.random();\n',
      'src/core/b.ts': "import { a } from './index.ts';\nexport const b = a;\n",
      'src/views/p.ts': "import { q } from './q.ts';\nexport const p = () => q;\n",
      'src/views/q.ts': "import { p } from './p.ts';\nexport const q = () => p;\n",
      'tools/long.ts': 'export {};\n'.repeat(801),
      'tools/long.gen.ts': 'export {};\n'.repeat(801),
    });
    expect(found).toEqual([
      'tools/long.ts: 801 lines: split it by job, 800 is the most',
      'src/core/a.ts: uses Math.random: pure folders take time and chance as arguments',
      'src/core/b.ts: imports ./index.ts: import the file itself, not the barrel of the folder it is in',
      'src/views/p.ts: imports in a circle: src/views/p.ts > src/views/q.ts',
    ]);
  });
});
