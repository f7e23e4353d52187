import { Menu } from '@base-ui-components/react/menu';
import { useCallback, useState } from 'react';
import { ComfortMenu } from '../comfort/index.ts';
import { describeTrace, useTrace } from '../frame/index.ts';
import { HandOverMenu } from '../handOver/index.ts';
import { documentStore, sessionStore, useDocument, useServices, useSession } from '../session/index.ts';
import { ShelfDialog } from '../shelf/index.ts';
import { Tip } from '../theme/index.ts';
import { HelpSheet } from './HelpSheet.tsx';
import { SetupTitle } from './SetupTitle.tsx';
import './topBar.css';
import { useKeys } from './useKeys.ts';
import type { Room } from './useRoom.ts';

/** What is open, which of its frames is on screen, and what can be done with the whole of it. */
export function TopBar({ room }: { readonly room: Room }) {
  const frames = useDocument((state) => state.setup.frames);
  const frameId = useSession((state) => state.frameId);
  const canUndo = useDocument((state) => state.canUndo);
  const canRedo = useDocument((state) => state.canRedo);
  const undoLabel = useDocument((state) => state.undoLabel);
  const redoLabel = useDocument((state) => state.redoLabel);
  const services = useServices();
  const [helpOpen, setHelpOpen] = useState(false);
  useKeys({ services, openHelp: useCallback(() => setHelpOpen(true), []) });
  return (
    <header className="kg-top">
      <SetupTitle />
      <nav className="kg-top-frames" aria-label="Frames">
        {frames.map((frame) => (
          <button
            key={frame.id}
            type="button"
            className="kg-tab"
            aria-current={frame.id === frameId ? 'page' : undefined}
            onClick={() => sessionStore.setState({ frameId: frame.id, activeFindingId: null })}
          >
            {frame.name}
          </button>
        ))}
      </nav>
      {room === 'wide' && <TraceWords />}
      <div className="kg-top-words">
        <Tip text={undoLabel ?? 'Nothing to undo'}>
          <button type="button" className="kg-word" disabled={!canUndo} onClick={() => documentStore.undo()}>
            Undo
          </button>
        </Tip>
        <Tip text={redoLabel ?? 'Nothing to do again'}>
          <button type="button" className="kg-word" disabled={!canRedo} onClick={() => documentStore.redo()}>
            Redo
          </button>
        </Tip>
        <span className="kg-top-rule" />
        <DemoMenu />
        <button type="button" className="kg-word" onClick={() => void services.openSetupFile()}>
          Open
        </button>
        <button type="button" className="kg-word" onClick={() => void services.saveSetupFile()}>
          Save
        </button>
        <HandOverMenu />
        <ComfortMenu />
        <button type="button" className="kg-word" onClick={() => setHelpOpen(true)}>
          Keys
        </button>
      </div>
      <ShelfDialog />
      <HelpSheet open={helpOpen} onOpenChange={setHelpOpen} />
    </header>
  );
}

function TraceWords() {
  const words = useTrace(describeTrace);
  return (
    <p className="kg-top-trace" data-testid="trace-state">
      {words}
    </p>
  );
}

function DemoMenu() {
  const { demos, openDemo } = useServices();
  return (
    <Menu.Root>
      <Menu.Trigger className="kg-word">Demos</Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={6} align="end">
          <Menu.Popup className="kg-float kg-menu">
            {demos.map((demo) => (
              <Menu.Item key={demo.name} className="kg-menu-item" onClick={() => void openDemo(demo.name)}>
                <span>{demo.wrong ? 'the same, as it goes wrong' : demo.title}</span>
                {!demo.wrong && <span className="kg-quiet">{demo.frames}</span>}
              </Menu.Item>
            ))}
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}
