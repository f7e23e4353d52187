import type { Finding } from '../../src/analysis/contracts.ts';

const LINE_LETTERS = 110;

/**
 * Findings as lines for a terminal, in the order given: a row of figures in aligned columns, the sentence and the remedy
 * under it. Text only, no colour; the grade is a word.
 */
export function findingLines(findings: readonly Finding[], nameOf: (recordId: string) => string): string[] {
  if (findings.length === 0) return ['No findings.'];
  const rows = findings.map((finding) => ({
    cells: [
      finding.grade,
      finding.check,
      nameOf(finding.subject),
      showFigure(finding.value, finding.unit),
      showLimit(finding),
    ],
    finding,
  }));
  const head = ['grade', 'check', 'subject', 'figure', 'limit'];
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map(({ cells }) => cells[column].length)));
  const setLine = (cells: readonly string[]): string =>
    cells
      .map((cell, column) => cell.padEnd(widths[column]))
      .join('  ')
      .trimEnd();
  return [
    setLine(head),
    ...rows.flatMap(({ cells, finding }) => [
      setLine(cells),
      ...wrap(finding.summary),
      ...finding.remedies.slice(0, 1).flatMap((remedy) => wrap(`Remedy: ${remedy.label}`)),
    ]),
  ];
}

/** Indented by two, broken between words. */
function wrap(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== undefined && last.length + 1 + word.length <= LINE_LETTERS)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(`  ${word}`);
  }
  return lines;
}

const SHARE_OF = /^share (?=of )/;

function showFigure(value: number, unit: string): string {
  if (SHARE_OF.test(unit)) return `${showNumber(100 * value)} % ${unit.replace(SHARE_OF, '')}`;
  return unit === '' ? showNumber(value) : `${showNumber(value)} ${unit}`;
}
const showLimit = ({ limit, unit }: Finding): string => (limit === null ? '' : showFigure(limit, unit));

/** Three significant digits, thousands written out. */
export function showNumber(value: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'no end' : 'none';
  if (value === 0) return '0';
  if (Math.abs(value) >= 1000) return String(Math.round(value));
  return String(Number(value.toPrecision(3)));
}
