import { useMemo } from 'react';
import { activateFinding, countAsking, groupFindings, useFindings, useResults, useSession } from '../session/index.ts';
import './checks.css';
import { CHECK_WORDS } from './checkWords.ts';
import { DoubtfulList } from './DoubtfulList.tsx';
import { FindingRow } from './FindingRow.tsx';

/** What the checks found, grouped, worst first. One line each; the open one shows its figure, limit and remedies. */
export function ChecksPanel() {
  const findings = useFindings();
  const checking = useResults((state) => state.checking);
  const hasResults = useResults((state) => state.hasResults);
  const error = useResults((state) => state.error);
  const activeId = useSession((state) => state.activeFindingId);
  const groups = useMemo(() => groupFindings(findings), [findings]);
  const asking = countAsking(findings);
  return (
    <div className="kg-checks" data-testid="checks" data-checking={checking}>
      <header className="kg-head">
        <h2>Checks</h2>
        <p className="kg-label" data-testid="checks-state">
          {error ? 'stopped' : !hasResults ? 'looking' : asking === 0 ? 'all clear' : `${asking} to look at`}
        </p>
      </header>
      <div className="kg-checks-list">
        {error && <p className="kg-checks-clear">The checks stopped: {error}</p>}
        {hasResults && !error && asking === 0 && (
          <p className="kg-checks-clear" data-testid="all-clear">
            All clear. No light shows where it should not, none reaches the lens from outside the frame, and the
            exposure suits the light.
          </p>
        )}
        <DoubtfulList />
        {groups.map((group) => (
          <section key={group.check} aria-label={CHECK_WORDS[group.check].title}>
            <h3 className="kg-label kg-checks-group">{CHECK_WORDS[group.check].title}</h3>
            <ul>
              {group.findings.map(({ finding, number }) => (
                <FindingRow
                  key={finding.id}
                  finding={finding}
                  number={number}
                  open={finding.id === activeId}
                  onToggle={() => activateFinding(finding.id === activeId ? null : finding.id)}
                />
              ))}
            </ul>
          </section>
        ))}
      </div>
    </div>
  );
}
