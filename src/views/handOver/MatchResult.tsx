import type { Result } from '../../core/result.ts';
import type { MeterMatch, OutputMatch } from '../../deliverables/meterMatch/matchMeter.ts';
import { recordMarks } from '../../deliverables/plan/recordMarks.ts';
import { describeOutput } from '../../fixtures/describe.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { useDocument } from '../session/index.ts';
import { stopsWords } from './MeterTable.tsx';

interface Props {
  readonly match: Result<MeterMatch, string> | null;
  readonly fixtures: readonly Fixture[];
  /** The reading that does not fit, in words. */
  readonly suspect: string | null;
  /** Takes that reading out. */
  onLeaveOut(): void;
}

/** What each light truly gives, by the readings, and how sure that is. */
export function MatchResult({ match, fixtures, suspect, onLeaveOut }: Props) {
  const setup = useDocument((state) => state.setup);
  const marks = recordMarks(setup);
  if (match === null)
    return (
      <p className="kg-match-wait">
        A reading of each light alone settles its output; one more of all together checks them. Leave cards, cloths and
        flags where they stand, and take the hero away for readings at the subject.
      </p>
    );
  if (!match.ok) return <p className="kg-match-wait">{match.error}</p>;
  const { outputs, chiSquare, degreesOfFreedom } = match.value;
  return (
    <div className="kg-match-result" role="status">
      {suspect && (
        <p className="kg-match-suspect" data-testid="meter-suspect">
          <span aria-hidden="true">&#9650;</span> One reading does not fit with the others: {suspect}. Read it again, or
          look whether something was in the way.
          <button type="button" className="kg-word" onClick={onLeaveOut} data-testid="meter-leave-out">
            Leave it out
          </button>
        </p>
      )}
      <ul className="kg-match-outputs">
        {outputs.map((output) => {
          const fixture = fixtures.find(({ id }) => id === output.fixtureId);
          return fixture ? (
            <li key={output.fixtureId} data-testid={`meter-out-${output.fixtureId}`}>
              <span>
                {marks.get(fixture.id)} {fixture.name}
              </span>
              <span className="kg-figure">{outputFigure(output)}</span>
              <span className="kg-quiet">{outputWords(output, fixture)}</span>
            </li>
          ) : null;
        })}
      </ul>
      <p className="kg-quiet">
        {degreesOfFreedom > 0
          ? `Left over: ${chiSquare.toFixed(1)} for ${degreesOfFreedom} spare ${degreesOfFreedom === 1 ? 'reading' : 'readings'}; about as much as there are spare ones means that set and meter agree.`
          : 'No reading is to spare, so nothing checks these figures.'}
      </p>
    </div>
  );
}

function outputFigure({ state, overStops, uncertaintyStops }: OutputMatch): string {
  if (state !== 'found' || overStops === null) return '\u2013';
  return `${stopsWords(overStops)} \u00b1 ${(uncertaintyStops ?? 0).toFixed(1)} stops`;
}

function outputWords({ state, overStops }: OutputMatch, fixture: Fixture): string {
  if (state === 'unknown') return fixture.on ? 'no reading tells it from the others' : 'off';
  if (state === 'dark') return fixture.on ? 'gives nothing: off, blocked or turned away' : 'off';
  const metered = { ...fixture, output: { ...fixture.output, value: fixture.output.value * 2 ** (overStops ?? 0) } };
  return `${describeOutput(fixture)} in the setup, ${describeOutput(metered)} by the meter`;
}
