import { lazy, type ReactNode, Suspense, useCallback, useState } from 'react';
import { useBringIn } from '../bringIn/bringInStore.ts';
import { ComfortMenu } from '../comfort/index.ts';
import { describeTrace, useTrace } from '../frame/index.ts';
import { FrameTabs } from '../frames/index.ts';
import { HandOverMenu } from '../handOver/index.ts';
import { openSearch, useSearchOpen } from '../search/searchStore.ts';
import { documentStore, useDocument, useServices } from '../session/index.ts';
import { useShelfRoom } from '../shelf/shelfStore.ts';
import { openStart, useStartPage } from '../start/startStore.ts';
import { Tip } from '../theme/index.ts';
import { SetupTitle } from './SetupTitle.tsx';
import './topBar.css';
import { useKeys } from './useKeys.ts';
import type { Room } from './useRoom.ts';

/** What is open, which of its frames is on screen, and what can be done with the whole of it. */
export function TopBar({ room }: { readonly room: Room }) {
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
      <FrameTabs />
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
        <button type="button" className="kg-word" data-testid="open-start" onClick={() => openStart()}>
          Setups
        </button>
        <button type="button" className="kg-word" onClick={() => void services.openSetupFile()}>
          Open
        </button>
        <button type="button" className="kg-word" onClick={() => void services.saveSetupFile()}>
          Save
        </button>
        <HandOverMenu />
        <ComfortMenu />
        <Tip text="Find anything that can be done (Ctrl + K)">
          <button type="button" className="kg-word" data-testid="open-search" onClick={openSearch}>
            Find
          </button>
        </Tip>
        <button type="button" className="kg-word" onClick={() => setHelpOpen(true)}>
          Keys
        </button>
      </div>
      <Overlays helpOpen={helpOpen} setHelpOpen={setHelpOpen} />
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

const StartSheet = lazy(() => import('../start/index.ts').then((module) => ({ default: module.StartSheet })));
const ShelfDialog = lazy(() => import('../shelf/ShelfDialog.tsx').then((module) => ({ default: module.ShelfDialog })));
const BringInDialog = lazy(() =>
  import('../bringIn/BringInDialog.tsx').then((module) => ({ default: module.BringInDialog })),
);
const SearchDialog = lazy(() =>
  import('../search/SearchDialog.tsx').then((module) => ({ default: module.SearchDialog })),
);
const HelpSheet = lazy(() => import('./HelpSheet.tsx').then((module) => ({ default: module.HelpSheet })));

interface OverlaysProps {
  readonly helpOpen: boolean;
  setHelpOpen(open: boolean): void;
}

/** Dialogs over the whole window, each fetched when it is first opened. */
function Overlays({ helpOpen, setHelpOpen }: OverlaysProps) {
  return (
    <>
      <Once open={useStartPage() !== null}>
        <StartSheet />
      </Once>
      <Once open={useShelfRoom() !== null}>
        <ShelfDialog />
      </Once>
      <Once open={useBringIn() !== null}>
        <BringInDialog />
      </Once>
      <Once open={useSearchOpen()}>
        <SearchDialog openHelp={() => setHelpOpen(true)} />
      </Once>
      <Once open={helpOpen}>
        <HelpSheet open={helpOpen} onOpenChange={setHelpOpen} />
      </Once>
    </>
  );
}

/** Nothing until it has been open once; from then on it stays, so that it can close with its own grace. */
function Once({ open, children }: { readonly open: boolean; readonly children: ReactNode }) {
  const [asked, setAsked] = useState(open);
  if (open && !asked) setAsked(true);
  return asked || open ? <Suspense fallback={null}>{children}</Suspense> : null;
}
