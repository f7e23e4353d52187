import { formatShutter } from '../../../camera/stops.ts';
import { useSession } from '../../session/index.ts';
import { fNumberText } from '../exposureScales.ts';
import { useTrace } from '../traceStore.ts';
import { closeFrameTool, useFrameTools } from './frameToolsStore.ts';
import { forgetPicture, keepPicture } from './keptPicture.ts';

/** What the picture before was, and how to put a newer one in its place. */
export function CompareOptions() {
  const frameId = useSession((state) => state.frameId);
  const kept = useFrameTools((state) => state.kept.get(frameId));
  const hasFilm = useTrace((state) => state.film !== null);
  return (
    <>
      {kept ? (
        <p>
          <span className="kg-label">Before </span>
          <span className="kg-figure">
            {kept.samples}
            <span className="kg-unit">samples</span>
          </span>
          <span className="kg-figure">
            {fNumberText(kept.camera.apertureFNumber)} {formatShutter(kept.camera.shutterS)} ISO{' '}
            {Math.round(kept.camera.iso)}
          </span>
        </p>
      ) : (
        <p className="kg-quiet">No picture of this frame is kept.</p>
      )}
      <span className="kg-tool-rest">
        <button
          type="button"
          className="kg-word"
          disabled={!hasFilm}
          title="Keep the picture as it is now. Key K."
          onClick={() => keepPicture()}
        >
          Keep this one
        </button>
        <button
          type="button"
          className="kg-word"
          disabled={!kept}
          onClick={() => {
            forgetPicture(frameId);
            closeFrameTool('compare');
          }}
        >
          Forget
        </button>
      </span>
    </>
  );
}
