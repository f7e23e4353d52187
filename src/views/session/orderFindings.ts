import type { CheckName, Finding, Grade } from '../../analysis/contracts.ts';

const GRADE_RANK: Readonly<Record<Grade, number>> = { stop: 0, care: 1, note: 2, ok: 3 };

export interface FindingGroup {
  readonly check: CheckName;
  readonly worst: Grade;
  readonly findings: readonly NumberedFinding[];
}

/** `number` ties a line of the list to its mark in the frame; findings that need nothing have none. */
export interface NumberedFinding {
  readonly finding: Finding;
  readonly number: number | null;
}

/** Groups by check, worst group and worst finding first, and numbers what has a place in or beside the frame. */
export function groupFindings(findings: readonly Finding[]): readonly FindingGroup[] {
  const byCheck = new Map<CheckName, Finding[]>();
  for (const finding of findings) byCheck.set(finding.check, [...(byCheck.get(finding.check) ?? []), finding]);
  const groups = [...byCheck].map(([check, members]) => {
    const sorted = members.toSorted((a, b) => GRADE_RANK[a.grade] - GRADE_RANK[b.grade]);
    return { check, worst: sorted[0].grade, findings: sorted };
  });
  groups.sort((a, b) => GRADE_RANK[a.worst] - GRADE_RANK[b.worst]);
  let next = 1;
  return groups.map((group) => ({
    ...group,
    findings: group.findings.map((finding) => ({
      finding,
      number: finding.grade !== 'ok' && finding.where.frame ? next++ : null,
    })),
  }));
}

/** True when nothing asks for anything. */
export const isAllClear = (findings: readonly Finding[]): boolean => findings.every((f) => f.grade === 'ok');
