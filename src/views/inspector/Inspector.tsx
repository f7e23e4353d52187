import { ArrangePanel } from '../arrange/ArrangePanel.tsx';
import { useComfort } from '../comfort/index.ts';
import {
  selectRecord,
  useDiagnostics,
  useDocument,
  useFrameScene,
  useSelection,
  useSession,
} from '../session/index.ts';
import { GradeMark } from '../theme/index.ts';
import { sheetShape } from './fields.ts';
import './inspector.css';
import { RecordActions } from './RecordActions.tsx';
import { RecordTitle } from './RecordTitle.tsx';
import { SetList } from './SetList.tsx';
import { SheetPanel } from './SheetPanel.tsx';
import { sheetInLengths } from './sheetInLengths.ts';
import { sheetOf } from './sheetOf.ts';

/** The selected thing in the units of the trade; with nothing selected, the list of all there is on the set. */
export function Inspector() {
  const scene = useFrameScene();
  const selectedId = useSession((state) => state.selectedId);
  const frameId = useSession((state) => state.frameId);
  const frame = useDocument((state) => state.setup.frames.find(({ id }) => id === frameId) ?? state.setup.frames[0]);
  const lengths = useComfort((comfort) => comfort.lengths);
  const several = useSelection().length;
  if (several > 1) return <Several count={several} />;
  const found = selectedId === null ? null : sheetOf(scene, selectedId, frame);
  const sheet = found && sheetInLengths(found, lengths);
  return (
    <div className="kg-inspector" data-testid="inspector">
      <header className="kg-head">
        {sheet ? <RecordTitle key={`${frame.id} ${sheet.recordId}`} sheet={sheet} /> : <h2>On the set</h2>}
        {sheet && <p className="kg-label">{sheet.kindWords}</p>}
      </header>
      <div className="kg-inspector-body">
        {sheet ? (
          <>
            <Doubts recordId={sheet.recordId} />
            <SheetPanel key={`${frame.id} ${lengths} ${sheetShape(sheet)}`} sheet={sheet} />
            <RecordActions scene={scene} sheet={sheet} />
          </>
        ) : (
          <SetList scene={scene} />
        )}
      </div>
    </div>
  );
}

/** Several things at once: what lines them up, holds them together and takes them away. */
function Several({ count }: { readonly count: number }) {
  return (
    <div className="kg-inspector" data-testid="inspector">
      <header className="kg-head">
        <h2>{count} selected</h2>
        <button type="button" className="kg-word" onClick={() => selectRecord(null)}>
          All on the set
        </button>
      </header>
      <div className="kg-inspector-body">
        <ArrangePanel />
      </div>
    </div>
  );
}

/** What is doubtful about the record that is being edited, above its fields. */
function Doubts({ recordId }: { readonly recordId: string }) {
  const doubts = useDiagnostics().filter((diagnostic) => diagnostic.recordId === recordId);
  return doubts.map(({ severity, code, message }) => (
    <p key={`${code} ${message}`} className="kg-inspector-doubt">
      <GradeMark grade={severity === 'error' ? 'stop' : 'care'} />
      {message}
    </p>
  ));
}
