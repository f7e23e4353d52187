import { isLocked } from '../../document/arrangement.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import {
  aimSelectedAtSubject,
  duplicateSelected,
  hideSelected,
  makeHero,
  removeSelected,
  setLocked,
} from '../arrange/index.ts';
import { pickPictureFor } from '../bringIn/index.ts';
import { duplicateFrame, removeFrame } from '../frames/index.ts';
import { selectRecord, useDocument, useSession } from '../session/index.ts';
import type { RecordSheet } from './fields.ts';

/** What can be done with the selected record as a whole. */
export function RecordActions({ scene, sheet }: { readonly scene: FrameScene; readonly sheet: RecordSheet }) {
  const frameId = useSession((state) => state.frameId);
  const { recordId, collection } = sheet;
  const whole = collection !== 'camera' && collection !== 'turntable';
  const isHero = recordId === scene.subject.pieceId;
  const looks = collection === 'fixtures' || collection === 'grip' || collection === 'camera';
  const locked = useDocument(({ setup }) => isLocked(setup, collection === 'camera' ? frameId : recordId));
  return (
    <div className="kg-inspector-actions">
      <button type="button" className="kg-word" onClick={() => selectRecord(null)}>
        All on the set
      </button>
      {collection === 'camera' && <FrameActions frameId={frameId} />}
      {looks && (
        <button type="button" className="kg-word" onClick={aimSelectedAtSubject}>
          Look at the subject
        </button>
      )}
      {collection === 'pieces' && !isHero && (
        <button type="button" className="kg-word" onClick={() => makeHero(recordId)}>
          Make it the hero
        </button>
      )}
      {collection === 'pieces' && (
        <button type="button" className="kg-word" onClick={() => pickPictureFor(recordId)}>
          Picture on it
        </button>
      )}
      {collection !== 'turntable' && (
        <button type="button" className="kg-word" onClick={() => setLocked([recordId], !locked)}>
          {locked ? 'Unlock' : 'Lock'}
        </button>
      )}
      {whole && (
        <>
          <button type="button" className="kg-word" onClick={duplicateSelected}>
            Duplicate
          </button>
          {!isHero && (
            <>
              <button type="button" className="kg-word" onClick={() => hideSelected()}>
                Leave out here
              </button>
              <button type="button" className="kg-word" onClick={removeSelected}>
                Remove
              </button>
            </>
          )}
        </>
      )}
    </div>
  );
}

/** The same as in the menu of the frame's own tab. */
function FrameActions({ frameId }: { readonly frameId: string }) {
  const frameCount = useDocument(({ setup }) => setup.frames.length);
  return (
    <>
      <button type="button" className="kg-word" onClick={() => duplicateFrame(frameId)}>
        New frame like this
      </button>
      {frameCount > 1 && (
        <button type="button" className="kg-word" onClick={() => removeFrame(frameId)}>
          Remove frame
        </button>
      )}
    </>
  );
}
