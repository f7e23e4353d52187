import { ALL_CHECKS } from '../../analysis/allChecks.ts';
import { CHECK_WORDS } from './checkWords.ts';
import { LimitSheet } from './LimitSheet.tsx';

/** The limits of every check in the frame on screen, those included that found nothing. */
export function AllLimits() {
  return (
    <div className="kg-all-limits">
      <p className="kg-all-limits-note">
        From where a figure counts, for this frame. Leave a field empty for the usual figure.
      </p>
      {ALL_CHECKS.map((check) => (
        <section key={check} aria-label={`Limits of ${CHECK_WORDS[check].title}`}>
          <h3 className="kg-checks-group">
            <span className="kg-label">{CHECK_WORDS[check].title}</span>
            <span className="kg-checks-question">{CHECK_WORDS[check].question}</span>
          </h3>
          <LimitSheet check={check} />
        </section>
      ))}
    </div>
  );
}
