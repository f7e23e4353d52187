import { useFrameScene } from '../../session/index.ts';
import { openShelf } from '../../shelf/shelfStore.ts';

/** Over a picture that nothing lights: why it is black, and the next thing to do. */
export function NoLight() {
  const { fixtures } = useFrameScene();
  if (fixtures.some(({ on }) => on)) return null;
  return (
    <div className="kg-no-light" data-testid="no-light">
      <p>{fixtures.length === 0 ? 'Nothing lights this frame yet.' : 'Every light of this frame is off.'}</p>
      {fixtures.length === 0 && (
        <button type="button" className="kg-action" onClick={() => openShelf('lights')}>
          Add a light
        </button>
      )}
    </div>
  );
}
