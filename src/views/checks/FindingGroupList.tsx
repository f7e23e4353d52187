import { useState } from 'react';
import { activateFinding, type FindingGroup, type NumberedFinding, useFrame, useSession } from '../session/index.ts';
import { CHECK_WORDS } from './checkWords.ts';
import { FindingRow } from './FindingRow.tsx';
import { LimitSheet } from './LimitSheet.tsx';
import { LIMIT_FIELDS } from './limitFields.ts';

/** So many quiet lines of one check are shown as they are; more fold into one word. */
const QUIET_SHOWN = 2;

/** One check: what asks for something, then what is only worth knowing, folded when there is much of it. */
export function FindingGroupList({ group }: { readonly group: FindingGroup }) {
  const activeId = useSession((state) => state.activeFindingId);
  const [unfolded, setUnfolded] = useState(false);
  const [limitsOpen, setLimitsOpen] = useState(false);
  const { limits } = useFrame();
  const limitsSet = LIMIT_FIELDS[group.check].some(({ key }) => limits[key] !== undefined);
  const quiet = group.findings.filter(({ finding }) => isQuiet(finding.grade));
  const asking = group.findings.filter(({ finding }) => !isQuiet(finding.grade));
  const foldable = quiet.length > QUIET_SHOWN;
  const open = unfolded || !foldable || quiet.some(({ finding }) => finding.id === activeId);
  const row = ({ finding, number }: NumberedFinding) => (
    <FindingRow
      key={finding.id}
      finding={finding}
      number={number}
      open={finding.id === activeId}
      onToggle={() => activateFinding(finding.id === activeId ? null : finding.id)}
    />
  );
  return (
    <section aria-label={CHECK_WORDS[group.check].title}>
      <h3 className="kg-checks-group">
        <span className="kg-label">{CHECK_WORDS[group.check].title}</span>
        <span className="kg-checks-question">{CHECK_WORDS[group.check].question}</span>
        <button
          type="button"
          className="kg-word kg-checks-limits"
          aria-expanded={limitsOpen}
          data-set={limitsSet || undefined}
          onClick={() => setLimitsOpen(!limitsOpen)}
        >
          {limitsSet ? 'Limits set' : 'Limits'}
        </button>
      </h3>
      {limitsOpen && <LimitSheet check={group.check} />}
      <ul>
        {asking.map(row)}
        {open && quiet.map(row)}
      </ul>
      {foldable && (
        <button
          type="button"
          className="kg-word kg-checks-fold"
          aria-expanded={open}
          onClick={() => setUnfolded(!unfolded)}
        >
          {open ? 'Fold notes' : `${quiet.length} notes`}
        </button>
      )}
    </section>
  );
}

const isQuiet = (grade: string): boolean => grade === 'note' || grade === 'ok';
