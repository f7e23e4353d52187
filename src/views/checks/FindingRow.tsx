import { useEffect, useRef } from 'react';
import type { Finding } from '../../analysis/contracts.ts';
import { inLengths, useComfort } from '../comfort/index.ts';
import { documentStore, selectRecord } from '../session/index.ts';
import { GRADE_WORDS, GradeMark, Quantity } from '../theme/index.ts';
import { CHECK_WORDS } from './checkWords.ts';
import { describeEvidence } from './describeEvidence.ts';
import { FindingMarks } from './FindingMarks.tsx';

interface FindingRowProps {
  readonly finding: Finding;
  readonly number: number | null;
  readonly open: boolean;
  onToggle(): void;
}

export function FindingRow({ finding, number, open, onToggle }: FindingRowProps) {
  const ref = useRef<HTMLLIElement>(null);
  const lengths = useComfort((comfort) => comfort.lengths);
  // Opened from its mark in the picture, or moved within the list by a new grade, it is still in sight.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the grade is what moves the line.
  useEffect(() => {
    if (open) ref.current?.scrollIntoView({ block: 'nearest' });
  }, [open, finding.grade]);
  return (
    <li
      ref={ref}
      className="kg-finding"
      data-open={open}
      data-grade={finding.grade}
      data-testid="finding"
      data-finding={finding.id}
    >
      <button type="button" className="kg-finding-line" aria-expanded={open} onClick={onToggle}>
        <GradeMark grade={finding.grade} />
        <span className="kg-finding-number kg-figure">{number ?? ''}</span>
        <span className="kg-finding-summary">
          <span className="kg-hidden">{GRADE_WORDS[finding.grade]}: </span>
          {inLengths(finding.summary, lengths)}
        </span>
        <span>
          <Quantity value={finding.value} unit={finding.unit} />
        </span>
      </button>
      {open && <FindingDetail finding={finding} />}
    </li>
  );
}

function FindingDetail({ finding }: { readonly finding: Finding }) {
  const evidence = describeEvidence(finding);
  const lengths = useComfort((comfort) => comfort.lengths);
  return (
    <div className="kg-finding-detail">
      <p className="kg-finding-figures">
        <span>{GRADE_WORDS[finding.grade]}</span>
        <span>
          <Quantity value={finding.value} unit={finding.unit} long />
        </span>
        {finding.limit !== null && (
          <span>
            <span className="kg-label">Limit </span>
            <Quantity value={finding.limit} unit={finding.unit} />
          </span>
        )}
      </p>
      {evidence !== '' && (
        <p className="kg-finding-evidence">
          <span className="kg-label">Proof</span> {inLengths(evidence, lengths)}
        </p>
      )}
      <p className="kg-finding-meaning">{CHECK_WORDS[finding.check].meaning}</p>
      <div className="kg-finding-remedies">
        {finding.remedies.map((remedy, index) => (
          <button
            key={remedy.label}
            type="button"
            className="kg-action"
            data-main={index === 0 || undefined}
            data-testid="remedy"
            onClick={() => documentStore.apply(remedy.label, remedy.changes)}
          >
            {inLengths(remedy.label, lengths)}
          </button>
        ))}
        <button type="button" className="kg-word" onClick={() => selectRecord(finding.subject)}>
          Select it
        </button>
      </div>
      <FindingMarks finding={finding} />
    </div>
  );
}
