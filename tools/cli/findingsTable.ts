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
  const widths = rows[0].cells.map((_, column) => Math.max(...rows.map(({ cells }) => cells[column].length)));
  return rows.flatMap(({ cells, finding }) => [
    cells
      .map((cell, column) => (column === 3 ? cell.padStart(widths[column]) : cell.padEnd(widths[column])))
      .join('  ')
      .trimEnd(),
    `  ${finding.summary}`,
    ...finding.remedies.slice(0, 1).map((remedy) => `  Remedy: ${remedy.label}`),
  ]);
}

/** Named figures, one a line, with units in their names as the checks give them. */
export function figureLines(figures: Readonly<Record<string, unknown>>): string[] {
  const flat = flattenFigures(figures);
  const width = Math.max(0, ...flat.map(([name]) => name.length));
  return flat.map(([name, value]) => `${name.padEnd(width)}  ${value}`);
}

function flattenFigures(value: unknown, path = ''): [string, string][] {
  if (value !== null && typeof value === 'object') {
    const entries: [string, unknown][] = Array.isArray(value)
      ? value.map((item, i): [string, unknown] => [labelOf(item) ?? String(i), item])
      : Object.entries(value);
    return entries.flatMap(([key, inner]) => flattenFigures(inner, path === '' ? key : `${path}.${key}`));
  }
  return [[path, typeof value === 'number' ? showNumber(value) : String(value)]];
}

function labelOf(item: unknown): string | undefined {
  if (item === null || typeof item !== 'object') return undefined;
  const label = 'id' in item ? item.id : 'fixtureId' in item ? item.fixtureId : undefined;
  return typeof label === 'string' ? label : undefined;
}

const showFigure = (value: number, unit: string): string =>
  unit === '' ? showNumber(value) : `${showNumber(value)} ${unit}`;
const showLimit = ({ limit, unit }: Finding): string => (limit === null ? '' : `limit ${showFigure(limit, unit)}`);

/** Three significant digits, thousands written out. */
export function showNumber(value: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'no end' : 'none';
  if (value === 0) return '0';
  if (Math.abs(value) >= 1000) return String(Math.round(value));
  return String(Number(value.toPrecision(3)));
}
