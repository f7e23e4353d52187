/** @typedef {{ passed: number, failed: number, skipped: number }} Counts */

/**
 * Counts the tests of a JSON report of the test runner. A run that failed without a failed test (a file that does not
 * load, an error outside any test, no report at all) counts as failed all the same.
 * @param {string | null} text the report, or null when none was written
 * @param {boolean} exitedCleanly
 * @returns {Counts}
 */
export function countReport(text, exitedCleanly) {
  if (text === null) return { passed: 0, failed: 1, skipped: 0 };
  /** @type {{ testResults: { status: string, assertionResults: { status: string }[] }[] }} */
  const report = JSON.parse(text);
  const counts = { passed: 0, failed: 0, skipped: 0 };
  for (const file of report.testResults) {
    const before = counts.failed;
    for (const { status } of file.assertionResults) {
      if (status === 'passed') counts.passed += 1;
      else if (status === 'failed') counts.failed += 1;
      else counts.skipped += 1;
    }
    if (file.status === 'failed' && counts.failed === before) counts.failed += 1;
  }
  if (!exitedCleanly && counts.failed === 0) counts.failed = 1;
  return counts;
}

/**
 * @param {Counts[]} all
 * @returns {{ line: string, failed: number }}
 */
export function closingLine(all) {
  /** @param {keyof Counts} key */
  const sum = (key) => all.reduce((total, counts) => total + counts[key], 0);
  const skipped = sum('skipped') ? `, ${sum('skipped')} skipped` : '';
  return { line: `${sum('passed')} passed, ${sum('failed')} failed${skipped}`, failed: sum('failed') };
}
