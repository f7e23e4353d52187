import { isLocked } from '../../document/arrangement.ts';
import type { FrameScene } from '../../scene/setModel.ts';
import { TURNTABLE_ID } from '../../scene/turntable.ts';
import { pickRecord } from '../arrange/index.ts';
import { CAMERA_ID, documentStore, hoverRecord, useDocument, useSession } from '../session/index.ts';
import { openShelf } from '../shelf/index.ts';

interface Entry {
  readonly id: string;
  readonly name: string;
}

/** All there is on the set, to select or to add to. */
export function SetList({ scene }: { readonly scene: FrameScene }) {
  return (
    <div className="kg-set">
      <ListGroup
        title="Lights"
        entries={scene.fixtures}
        add={{ word: 'Add a light', run: () => openShelf('lights') }}
      />
      <ListGroup title="Grip" entries={scene.grip} add={{ word: 'Add grip', run: () => openShelf('grip') }} />
      <ListGroup title="Pieces" entries={scene.pieces} add={{ word: 'Add a piece', run: () => openShelf('glasses') }} />
      <ListGroup
        title="Camera"
        entries={[
          { id: CAMERA_ID, name: 'Camera' },
          ...(scene.turntable ? [{ id: TURNTABLE_ID, name: 'Turntable' }] : []),
        ]}
      />
      <LeftOut />
    </div>
  );
}

interface ListGroupProps {
  readonly title: string;
  readonly entries: readonly Entry[];
  readonly add?: { readonly word: string; run(): void };
}

function ListGroup({ title, entries, add }: ListGroupProps) {
  const setup = useDocument((state) => state.setup);
  const frameId = useSession((state) => state.frameId);
  return (
    <section className="kg-set-group" aria-label={title}>
      <h3 className="kg-label">{title}</h3>
      <ul>
        {entries.map(({ id, name }) => (
          <li key={id}>
            <button
              type="button"
              className="kg-word kg-set-entry"
              onClick={(event) => pickRecord(id, { add: event.shiftKey, alone: event.altKey })}
              onPointerEnter={() => hoverRecord(id)}
              onPointerLeave={() => hoverRecord(null)}
            >
              {name}
              {isLocked(setup, id === CAMERA_ID ? frameId : id) && <span className="kg-quiet">, locked</span>}
            </button>
          </li>
        ))}
        {add && (
          <li>
            <button type="button" className="kg-word kg-set-add" aria-haspopup="dialog" onClick={add.run}>
              {add.word}
            </button>
          </li>
        )}
      </ul>
    </section>
  );
}

/** What this frame leaves out, and the way back. */
function LeftOut() {
  const frameId = useSession((state) => state.frameId);
  const setup = useDocument((state) => state.setup);
  const hidden = setup.frames.find((frame) => frame.id === frameId)?.hidden ?? [];
  const records: readonly Entry[] = [...setup.fixtures, ...setup.grip, ...setup.pieces];
  const entries = records.filter(({ id }) => hidden.includes(id));
  if (entries.length === 0) return null;
  return (
    <section className="kg-set-group" aria-label="Left out of this frame">
      <h3 className="kg-label">Left out here</h3>
      <ul>
        {entries.map(({ id, name }) => (
          <li key={id}>
            <button
              type="button"
              className="kg-word kg-set-entry"
              onClick={() => documentStore.apply(`Put back ${name}`, [{ op: 'setHidden', frameId, id, hidden: false }])}
            >
              {name}: put back
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
