import type { Finding, FindingMark } from './contracts.ts';

/**
 * Findings after what the photographer has said of them: what is wanted is ok as it is and offers no remedy, what is unwanted is
 * at least care, whatever its figure. Marks of findings that are not there do nothing.
 */
export function applyMarks(findings: readonly Finding[], marks: readonly FindingMark[]): Finding[] {
  const markOf = new Map(marks.map((mark) => [mark.findingId, mark]));
  return findings.map((finding) => {
    const mark = markOf.get(finding.id);
    if (!mark) return finding;
    const reason = mark.reason.trim() === '' ? '' : `: ${mark.reason.trim()}`;
    const summary = `${finding.summary} Marked as ${mark.wanted ? 'wanted' : 'unwanted'}${reason}.`;
    if (mark.wanted) return { ...finding, grade: 'ok', summary, remedies: [] };
    return { ...finding, grade: finding.grade === 'stop' ? 'stop' : 'care', summary };
  });
}
