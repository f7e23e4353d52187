import { useFrameScene } from '../../session/index.ts';
import { frameToolsStore, useFrameTools } from './frameToolsStore.ts';
import { spillFixture } from './spillFixture.ts';

/** Whose light is shown. */
export function SpillOptions() {
  const { fixtures } = useFrameScene();
  const wanted = useFrameTools((state) => state.spillFixtureId);
  const shown = spillFixture(fixtures, wanted);
  if (fixtures.length === 0) return <p className="kg-quiet">No lights on this set yet.</p>;
  return (
    <>
      <fieldset className="kg-tool-choice" aria-label="Light of">
        {fixtures.map((fixture) => (
          <button
            key={fixture.id}
            type="button"
            className="kg-word"
            aria-pressed={fixture.id === shown?.id}
            onClick={() => frameToolsStore.setState({ spillFixtureId: fixture.id })}
          >
            {fixture.name}
          </button>
        ))}
      </fieldset>
      <p className="kg-quiet kg-tool-rest">
        {shown && !shown.on ? 'This light is off.' : 'In colour where the light is its own.'}
      </p>
    </>
  );
}
