import { useDocument, useFrameScene, useSession } from '../session/index.ts';
import { sheetShape } from './fields.ts';
import './inspector.css';
import { RecordActions } from './RecordActions.tsx';
import { RecordTitle } from './RecordTitle.tsx';
import { SetList } from './SetList.tsx';
import { SheetPanel } from './SheetPanel.tsx';
import { sheetOf } from './sheetOf.ts';

/** The selected thing in the units of the trade; with nothing selected, the list of all there is on the set. */
export function Inspector() {
  const scene = useFrameScene();
  const selectedId = useSession((state) => state.selectedId);
  const frameId = useSession((state) => state.frameId);
  const frame = useDocument((state) => state.setup.frames.find(({ id }) => id === frameId) ?? state.setup.frames[0]);
  const sheet = selectedId === null ? null : sheetOf(scene, selectedId, frame);
  return (
    <div className="kg-inspector" data-testid="inspector">
      <header className="kg-head">
        {sheet ? <RecordTitle key={`${frame.id} ${sheet.recordId}`} sheet={sheet} /> : <h2>On the set</h2>}
        {sheet && <p className="kg-label">{sheet.kindWords}</p>}
      </header>
      <div className="kg-inspector-body">
        {sheet ? (
          <>
            <SheetPanel key={`${frame.id} ${sheetShape(sheet)}`} sheet={sheet} />
            <RecordActions scene={scene} sheet={sheet} />
          </>
        ) : (
          <SetList scene={scene} />
        )}
      </div>
    </div>
  );
}
