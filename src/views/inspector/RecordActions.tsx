import type { FrameScene } from '../../scene/setModel.ts';
import { documentStore, selectRecord, useSession } from '../session/index.ts';
import { duplicateRecord } from './addRecord.ts';
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
