/**
 * Everything that has to hold, in one command that works in a fresh checkout. Every step runs even when an earlier one
 * fails; the last line counts the tests and, as one each, the other steps.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBuild } from './build.mjs';
import { closingLine, countReport } from './countReport.mjs';
import { ROOT, runNpm, setUp } from './setup.mjs';

/** @typedef {import('./countReport.mjs').Counts} Counts */

if (!(await setUp())) process.exit(1);
const browserReady = await setUp({ browser: true });
const scratch = mkdtempSync(join(tmpdir(), 'keyglass-test-'));
const scripts = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')).scripts;

/** @type {{ name: string, counts: Counts }[]} */
const results = [];

step('format', () => tool('@biomejs/biome/bin/biome', ['format', '.']));
step('lint', () =>
  tool('@biomejs/biome/bin/biome', ['check', '--formatter-enabled=false', '--error-on-warnings', '.']),
);
step('layers', () => node([join(ROOT, 'tools', 'check-layers.mjs')]));
step('types', () => tool('typescript/bin/tsc', ['-p', 'tsconfig.json', '--noEmit']));
step('types of the pure folders', () => tool('typescript/bin/tsc', ['-p', 'tsconfig.pure.json', '--noEmit']));
if (scripts['gen:check']) step('generated files', () => runNpm(['run', '-s', 'gen:check']) === 0);
tests('unit and reference tests', ['unit', 'reference']);
// The browser tests find this build by its stamp and do not make another.
const built = step('build', ensureBuild);
if (built && browserReady) tests('browser tests', ['e2e']);
else step('browser tests', () => false);

rmSync(scratch, { recursive: true, force: true });
console.log('');
for (const { name, counts } of results) console.log(`${counts.failed ? 'FAIL' : 'ok  '}  ${name}`);
const total = closingLine(results.map(({ counts }) => counts));
console.log(`\n${total.line}`);
process.exitCode = total.failed ? 1 : 0;

/**
 * @param {string} name
 * @param {() => boolean} run
 */
function step(name, run) {
  console.log(`\n== ${name}`);
  const ok = run();
  console.log(`${name}: ${ok ? 'ok' : 'FAILED'}`);
  results.push({ name, counts: { passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0 } });
  return ok;
}

/**
 * @param {string} name
 * @param {string[]} projects
 */
function tests(name, projects) {
  console.log(`\n== ${name}`);
  const report = join(scratch, `${projects.join('-')}.json`);
  const ok = tool('vitest/vitest.mjs', [
    'run',
    ...projects.flatMap((project) => ['--project', project]),
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  const counts = countReport(existsSync(report) ? readFileSync(report, 'utf8') : null, ok);
  console.log(`${name}: ${counts.failed ? 'FAILED' : 'ok'}`);
  results.push({ name, counts });
}

/**
 * @param {string} path under node_modules
 * @param {string[]} args
 */
function tool(path, args) {
  return node([join(ROOT, 'node_modules', ...path.split('/')), ...args]);
}

/** @param {string[]} args */
function node(args) {
  return spawnSync(process.execPath, args, { cwd: ROOT, stdio: 'inherit' }).status === 0;
}
