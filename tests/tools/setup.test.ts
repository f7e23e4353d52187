import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findBrowser } from '../../tools/browser.mjs';
import { closingLine, countReport } from '../../tools/countReport.mjs';
import { nodeVersionProblem, packagesAreCurrent } from '../../tools/setup.mjs';

describe('setting up', () => {
  it('refuses Node 20.18 and 18.20 with one line, takes 20.19 and 22.0', () => {
    expect(nodeVersionProblem('20.18.3')).toMatch(/^[^\n]*20\.19[^\n]*$/);
    expect(nodeVersionProblem('18.20.0')).not.toBeNull();
    expect(nodeVersionProblem('20.19.0')).toBeNull();
    expect(nodeVersionProblem('22.0.0')).toBeNull();
  });

  it('sees packages that are missing, of another version, or only missing for another platform', () => {
    const root = mkdtempSync(join(tmpdir(), 'keyglass-setup-'));
    const lock = (packages: object) => JSON.stringify({ packages });
    const installed = join(root, 'node_modules', '.package-lock.json');
    const wanted = {
      '': {},
      'node_modules/a': { version: '1.0.0' },
      'node_modules/b': { version: '2.0.0', optional: true },
    };
    writeFileSync(join(root, 'package-lock.json'), lock(wanted));
    expect(packagesAreCurrent(root)).toBe(false);
    mkdirSync(join(root, 'node_modules'));
    writeFileSync(installed, lock({ 'node_modules/a': { version: '1.0.0' } }));
    expect(packagesAreCurrent(root)).toBe(true);
    writeFileSync(installed, lock({ 'node_modules/a': { version: '1.0.1' } }));
    expect(packagesAreCurrent(root)).toBe(false);
    rmSync(root, { recursive: true });
  });

  it('takes the browser that KEYGLASS_CHROMIUM names, and says so when it is not there', () => {
    expect(findBrowser({ KEYGLASS_CHROMIUM: process.execPath })).toEqual({
      ok: true,
      executablePath: process.execPath,
    });
    expect(findBrowser({ KEYGLASS_CHROMIUM: '/nowhere/chromium' })).toMatchObject({ ok: false });
  });
});

describe('the closing line of the tests', () => {
  const file = (status: string, ...tests: string[]) => ({
    status,
    assertionResults: tests.map((t) => ({ status: t })),
  });
  const report = (...testResults: object[]) => JSON.stringify({ testResults });

  it('counts passed, failed and skipped tests over all steps', () => {
    const counts = countReport(report(file('failed', 'passed', 'failed'), file('passed', 'passed', 'pending')), false);
    expect(closingLine([counts, { passed: 1, failed: 0, skipped: 0 }])).toEqual({
      line: '3 passed, 1 failed, 1 skipped',
      failed: 1,
    });
  });

  it('counts a file that does not load, an error outside tests and a missing report as one failure each', () => {
    expect(countReport(report(file('failed'), file('passed', 'passed')), false).failed).toBe(1);
    expect(countReport(report(file('passed', 'passed')), false).failed).toBe(1);
    expect(countReport(null, true).failed).toBe(1);
  });
});
