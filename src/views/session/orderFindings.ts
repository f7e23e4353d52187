import type { CheckName, Finding, Grade } from '../../analysis/contracts.ts';

const GRADE_RANK: Readonly<Record<Grade, number>> = { stop: 0, care: 1, note: 2, ok: 3 };

export interface FindingGroup {
  readonly check: CheckName;
  readonly worst: Grade;
  readonly findings: readonly NumberedFinding[];
}

/** `number` ties a line of the list to its mark in the frame. Only what asks for something is numbered. */
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
      number: ASKING.has(finding.grade) && finding.where.frame ? next++ : null,
    })),
  }));
}

/** Grades that ask for something to be done; a note is only worth knowing. */
const ASKING: ReadonlySet<Grade> = new Set<Grade>(['stop', 'care']);

export const countAsking = (findings: readonly Finding[]): number =>
  findings.filter((finding) => ASKING.has(finding.grade)).length;
