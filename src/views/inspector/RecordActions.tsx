import { newId } from '../../document/defaults.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { documentStore, selectRecord, sessionStore, useDocument, useSession } from '../session/index.ts';
import { duplicateRecord } from '../shelf/index.ts';
import type { RecordSheet } from './fields.ts';

/** What can be done with the selected record as a whole. */
export function RecordActions({ scene, sheet }: { readonly scene: FrameScene; readonly sheet: RecordSheet }) {
  const frameId = useSession((state) => state.frameId);
  const { recordId, collection, title } = sheet;
  const whole = collection !== 'camera' && collection !== 'turntable';
  const isHero = recordId === scene.subject.pieceId;
  return (
    <div className="kg-inspector-actions">
      <button type="button" className="kg-word" onClick={() => selectRecord(null)}>
        All on the set
      </button>
      {collection === 'camera' && <FrameActions />}
      {whole && (
        <>
          <button type="button" className="kg-word" onClick={() => duplicateRecord(collection, recordId)}>
            Duplicate
          </button>
          {!isHero && (
            <>
              <button
                type="button"
                className="kg-word"
                onClick={() =>
                  documentStore.apply(`Leave out ${title}`, [{ op: 'setHidden', frameId, id: recordId, hidden: true }])
                }
              >
                Leave out here
              </button>
              <button
                type="button"
                className="kg-word"
                onClick={() => documentStore.apply(`Remove ${title}`, [{ op: 'remove', collection, id: recordId }])}
              >
                Remove
              </button>
            </>
          )}
        </>
      )}
    </div>
  );
}

/** A frame is made from another one, with its camera, its overrides and what it leaves out. */
function FrameActions() {
  const setup = useDocument((state) => state.setup);
  const frameId = useSession((state) => state.frameId);
  const index = Math.max(
    0,
    setup.frames.findIndex(({ id }) => id === frameId),
  );
  const frame = setup.frames[index];
  const copy = () => {
    const id = newId(setup, 'frame');
    const added = documentStore.apply(`New frame like ${frame.name}`, [
      { op: 'addFrame', frame: { ...frame, id, name: `${frame.name}, again`.slice(0, 120) }, index: index + 1 },
    ]);
    if (added.ok) sessionStore.setState({ frameId: id });
  };
  return (
    <>
      <button type="button" className="kg-word" onClick={copy}>
        New frame like this
      </button>
      {setup.frames.length > 1 && (
        <button
          type="button"
          className="kg-word"
          onClick={() => documentStore.apply(`Remove ${frame.name}`, [{ op: 'removeFrame', id: frame.id }])}
        >
          Remove frame
        </button>
      )}
    </>
  );
}
