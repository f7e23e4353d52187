/** Command line: the findings and figures of one frame. Status 0, or 1 when a finding is graded "stop", or 2. */

import { ALL_CHECKS } from '../src/analysis/allChecks.ts';
import type { Finding } from '../src/analysis/contracts.ts';
import { checkFrame } from '../src/analysis/runChecks.ts';
import { checkSettingsOf } from '../src/document/checkSettings.ts';
import { figureLines } from './cli/figureLines.ts';
import { findingLines } from './cli/findingsTable.ts';
import { InputError, runCommand } from './cli/inputError.ts';
import { openFrame, reportDiagnostics } from './cli/openFrame.ts';
import { parseCommandLine } from './cli/options.ts';

const USAGE = 'npm run -s report -- SETUP.json [--frame NAME] [--check NAME]... [--json]';

async function run(): Promise<number> {
  const { file, values } = parseCommandLine(
    process.argv.slice(2),
    { frame: { type: 'string' }, check: { type: 'string', multiple: true }, json: { type: 'boolean' } },
    USAGE,
  );
  const checks = values.check?.map((name) => {
    const known = ALL_CHECKS.find((check) => check === name);
    if (!known) throw new InputError(`--check ${name}: no such check; there are ${ALL_CHECKS.join(', ')}`);
    return known;
  });
  const { setup, frame, scene } = openFrame(file, values.frame);
  const { findings, figures, input } = checkFrame(scene, {
    ...(checks ? { checks } : {}),
    ...checkSettingsOf(setup, frame),
  });
  reportDiagnostics(scene, input.set);
  if (values.json) {
    const report = { setup: setup.title, frame: frame.id, findings: findings.map(findingRecord), figures };
    process.stdout.write(`${JSON.stringify(report, listTypedArrays, 2)}\n`);
  } else {
    const names = new Map([...scene.pieces, ...scene.fixtures, ...scene.grip].map(({ id, name }) => [id, name]));
    const nameOf = (id: string): string => names.get(id) ?? id;
    const lines = [
      `${setup.title}: ${frame.name}`,
      '',
      ...findingLines(findings, nameOf),
      ...figureLines(figures, nameOf),
    ];
    process.stdout.write(`${lines.join('\n')}\n`);
  }
  return findings.some(({ grade }) => grade === 'stop') ? 1 : 0;
}

/** A finding as the JSON report gives it: its first remedy, if it has one. */
function findingRecord({ remedies, ...finding }: Finding): object {
  const [remedy] = remedies;
  return remedy ? { ...finding, remedy } : finding;
}

function listTypedArrays(_key: string, value: unknown): unknown {
  return value instanceof Float32Array || value instanceof Float64Array ? Array.from(value) : value;
}

await runCommand('report', run);
