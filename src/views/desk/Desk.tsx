import { sessionStore, useFigures, useFrameScene, useSession } from '../session/index.ts';
import { openShelf } from '../shelf/index.ts';
import { DeskStrip } from './DeskStrip.tsx';
import './desk.css';
import { readSubjectLux } from './readSubjectLux.ts';

/** A strip per fixture: output, colour, solo and switch, on the finished frame at once. */
export function Desk() {
  const { fixtures } = useFrameScene();
  const luxByFixture = readSubjectLux(useFigures());
  const soloCount = useSession((state) => state.soloFixtureIds.length);
  return (
    <div className="kg-desk" data-testid="desk">
      <header className="kg-head">
        <h2>Light desk</h2>
        <div className="kg-desk-words">
          {soloCount > 0 && (
            <button
              type="button"
              className="kg-word kg-desk-solo"
              onClick={() => sessionStore.setState({ soloFixtureIds: [] })}
            >
              End solo
            </button>
          )}
          <button type="button" className="kg-word" aria-haspopup="dialog" onClick={() => openShelf('lights')}>
            Add a light
          </button>
        </div>
      </header>
      {fixtures.length === 0 ? (
        <p className="kg-empty">No lights on this set yet.</p>
      ) : (
        <div className="kg-desk-strips">
          {fixtures.map((fixture) => (
            <DeskStrip key={fixture.id} fixture={fixture} subjectLux={luxByFixture.get(fixture.id) ?? null} />
          ))}
        </div>
      )}
    </div>
  );
}
