import { useMemo, useState } from 'react';
import { countAsking, groupFindings, useFindings, useResults } from '../session/index.ts';
import { AllLimits } from './AllLimits.tsx';
import './checks.css';
import { DoubtfulList } from './DoubtfulList.tsx';
import { FindingGroupList } from './FindingGroupList.tsx';

/** What the checks found, grouped, worst first. One line each; the open one shows its figure, limit and remedies. */
export function ChecksPanel() {
  const findings = useFindings();
  const checking = useResults((state) => state.checking);
  const hasResults = useResults((state) => state.hasResults);
  const error = useResults((state) => state.error);
  const groups = useMemo(() => groupFindings(findings), [findings]);
  const [showLimits, setShowLimits] = useState(false);
  const asking = countAsking(findings);
  return (
    <div className="kg-checks" data-testid="checks" data-checking={checking}>
      <header className="kg-head">
        <h2>Checks</h2>
        <div className="kg-checks-words">
          <p className="kg-label" data-testid="checks-state">
            {error ? 'stopped' : !hasResults ? 'looking' : asking === 0 ? 'all clear' : `${asking} to look at`}
          </p>
          <button
            type="button"
            className="kg-word"
            aria-pressed={showLimits}
            onClick={() => setShowLimits(!showLimits)}
          >
            All limits
          </button>
        </div>
      </header>
      <div className="kg-checks-list">
        {showLimits ? (
          <AllLimits />
        ) : (
          <>
            {error && <p className="kg-checks-clear">The checks stopped: {error}</p>}
            {hasResults && !error && asking === 0 && (
              <p className="kg-checks-clear" data-testid="all-clear">
                All clear. Nothing that was checked in this frame is past its limit.
              </p>
            )}
            <DoubtfulList />
            {groups.map((group) => (
              <FindingGroupList key={group.check} group={group} />
            ))}
          </>
        )}
      </div>
    </div>
  );
}
