import type { Finding, Grade } from '../../src/analysis/contracts.ts';

const GRADE_ORDER: Readonly<Record<Grade, number>> = { stop: 0, care: 1, note: 2, ok: 3 };

/** Worst first; within a grade as the checks gave them. */
export const worstFirst = (findings: readonly Finding[]): Finding[] =>
  [...findings].sort((a, b) => GRADE_ORDER[a.grade] - GRADE_ORDER[b.grade]);

/**
 * Findings as lines for a terminal: a row of figures in aligned columns, the sentence and the remedy under it.
 * Text only, no colour; the grade is a word.
 */
export function findingLines(findings: readonly Finding[], nameOf: (recordId: string) => string): string[] {
  if (findings.length === 0) return ['No findings.'];
  const rows = worstFirst(findings).map((finding) => ({
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
      `  ${finding.summary}`,
      ...finding.remedies.slice(0, 1).map((remedy) => `  Remedy: ${remedy.label}`),
    ]),
  ];
}

const showFigure = (value: number, unit: string): string =>
  unit === '' ? showNumber(value) : `${showNumber(value)} ${unit}`;
const showLimit = ({ limit, unit }: Finding): string => (limit === null ? '' : showFigure(limit, unit));

/** Three significant digits, thousands written out. */
export function showNumber(value: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'no end' : 'none';
  if (value === 0) return '0';
  if (Math.abs(value) >= 1000) return String(Math.round(value));
  return String(Number(value.toPrecision(3)));
}
