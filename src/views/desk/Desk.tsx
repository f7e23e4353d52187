import { sessionStore, useFigures, useFrame, useFrameScene, useSession } from '../session/index.ts';
import { openShelf } from '../shelf/index.ts';
import { DeskStrip } from './DeskStrip.tsx';
import './desk.css';
import { makeGroup } from './deskCommands.ts';
import { type DeskPlace, layDesk } from './deskLayout.ts';
import { deskStore, useDesk } from './deskStore.ts';
import { GroupStrip } from './GroupStrip.tsx';
import { LooksBar } from './LooksBar.tsx';
import { readSubjectLux } from './readSubjectLux.ts';

/** A strip per fixture: output, colour, solo and switch, on the finished frame at once; groups and looks of them. */
export function Desk() {
  const { fixtures } = useFrameScene();
  const groups = useFrame().desk?.groups ?? [];
  const luxByFixture = readSubjectLux(useFigures());
  return (
    <div className="kg-desk" data-testid="desk">
      <header className="kg-head">
        <h2>Light desk</h2>
        <DeskWords />
      </header>
      {fixtures.length === 0 ? (
        <p className="kg-empty">No lights on this set yet.</p>
      ) : (
        <div className="kg-desk-strips">
          {layDesk(fixtures, groups).map((place) => (
            <Place key={place.group?.id ?? place.fixtures[0]?.id} place={place} luxByFixture={luxByFixture} />
          ))}
        </div>
      )}
    </div>
  );
}

function Place({ place, luxByFixture }: { place: DeskPlace; luxByFixture: ReadonlyMap<string, number> }) {
  const { group, fixtures } = place;
  const folded = useDesk((state) => group !== null && state.foldedGroupIds.includes(group.id));
  const strips = fixtures.map((fixture) => (
    <DeskStrip key={fixture.id} fixture={fixture} subjectLux={luxByFixture.get(fixture.id) ?? null} />
  ));
  if (group === null) return <>{strips}</>;
  const lux = fixtures.map(({ id }) => luxByFixture.get(id));
  const known = lux.filter((value) => value !== undefined);
  return (
    <div className="kg-desk-group" data-folded={folded || undefined}>
      <GroupStrip
        group={group}
        members={fixtures}
        subjectLux={known.length === lux.length ? known.reduce((sum, value) => sum + value, 0) : null}
      />
      {!folded && strips}
    </div>
  );
}

function DeskWords() {
  const { fixtures } = useFrameScene();
  const soloCount = useSession((state) => state.soloFixtureIds.length);
  const picked = useDesk((state) => state.picked);
  if (picked !== null) {
    return (
      <div className="kg-desk-words">
        <p className="kg-quiet kg-desk-note">Pick the lights that belong together</p>
        <button
          type="button"
          className="kg-word kg-desk-solo"
          disabled={picked.length < 2}
          onClick={() => {
            makeGroup(picked);
            deskStore.setState({ picked: null });
          }}
        >
          Make a group
        </button>
        <button type="button" className="kg-word" onClick={() => deskStore.setState({ picked: null })}>
          Cancel
        </button>
      </div>
    );
  }
  return (
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
      <LooksBar />
      {fixtures.length > 1 && (
        <button type="button" className="kg-word" onClick={() => deskStore.setState({ picked: [] })}>
          Group
        </button>
      )}
      <button type="button" className="kg-word" aria-haspopup="dialog" onClick={() => openShelf('lights')}>
        Add a light
      </button>
    </div>
  );
}
