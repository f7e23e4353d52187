import { useState } from 'react';
import { activateFinding, type FindingGroup, type NumberedFinding, useSession } from '../session/index.ts';
import { CHECK_WORDS } from './checkWords.ts';
import { FindingRow } from './FindingRow.tsx';

/** So many quiet lines of one check are shown as they are; more fold into one word. */
const QUIET_SHOWN = 2;

/** One check: what asks for something, then what is only worth knowing, folded when there is much of it. */
export function FindingGroupList({ group }: { readonly group: FindingGroup }) {
  const activeId = useSession((state) => state.activeFindingId);
  const [unfolded, setUnfolded] = useState(false);
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
      <h3 className="kg-label kg-checks-group">{CHECK_WORDS[group.check].title}</h3>
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
