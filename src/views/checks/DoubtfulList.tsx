import { selectRecord, useDiagnostics } from '../session/index.ts';
import { GRADE_WORDS, GradeMark } from '../theme/index.ts';

/** What the records themselves say is wrong or doubtful, above what the light does. A click selects the record. */
export function DoubtfulList() {
  const diagnostics = useDiagnostics();
  if (diagnostics.length === 0) return null;
  return (
    <section aria-label="The set itself" data-testid="doubtful">
      <h3 className="kg-label kg-checks-group">The set itself</h3>
      <ul>
        {diagnostics.map(({ severity, code, recordId, message }) => {
          const grade = severity === 'error' ? 'stop' : 'care';
          return (
            <li key={`${code} ${recordId} ${message}`} className="kg-finding" data-grade={grade}>
              <button type="button" className="kg-finding-line" onClick={() => selectRecord(recordId ?? null)}>
                <GradeMark grade={grade} />
                <span />
                <span>
                  <span className="kg-hidden">{GRADE_WORDS[grade]}: </span>
                  {message}
                </span>
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
