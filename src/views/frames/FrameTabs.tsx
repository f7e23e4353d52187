import { Menu } from '@base-ui-components/react/menu';
import { useState } from 'react';
import type { Frame } from '../../document/setup.ts';
import { useDocument, useSession } from '../session/index.ts';
import {
  addFrame,
  duplicateFrame,
  moveFrame,
  removeFrame,
  renameFrame,
  setOwnDesk,
  showFrame,
} from './frameCommands.ts';
import './frames.css';

/** The frames of the setup: one click from one to the next; the one on screen has a menu. */
export function FrameTabs() {
  const frames = useDocument((state) => state.setup.frames);
  const frameId = useSession((state) => state.frameId);
  const [renaming, setRenaming] = useState(false);
  return (
    <nav className="kg-top-frames" aria-label="Frames">
      {frames.map((frame) =>
        frame.id === frameId && renaming ? (
          <NameField key={frame.id} frame={frame} onDone={() => setRenaming(false)} />
        ) : (
          <button
            key={frame.id}
            type="button"
            className="kg-tab"
            aria-current={frame.id === frameId ? 'page' : undefined}
            onClick={() => showFrame(frame.id)}
            onDoubleClick={() => setRenaming(true)}
          >
            {frame.name}
          </button>
        ),
      )}
      <FrameMenu frames={frames} frameId={frameId} onRename={() => setRenaming(true)} />
    </nav>
  );
}

function NameField({ frame, onDone }: { readonly frame: Frame; onDone(): void }) {
  const [draft, setDraft] = useState(frame.name);
  return (
    <input
      className="kg-frame-name"
      aria-label="Name of the frame"
      data-testid="frame-name"
      // biome-ignore lint/a11y/noAutofocus: it appears because somebody asked to type in it
      autoFocus
      maxLength={120}
      value={draft}
      onFocus={(event) => event.currentTarget.select()}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={() => {
        renameFrame(frame.id, draft);
        onDone();
      }}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key === 'Escape') onDone();
      }}
    />
  );
}

interface FrameMenuProps {
  readonly frames: readonly Frame[];
  readonly frameId: string;
  onRename(): void;
}

function FrameMenu({ frames, frameId, onRename }: FrameMenuProps) {
  const index = frames.findIndex(({ id }) => id === frameId);
  const frame = frames[index] ?? frames[0];
  const items: readonly { readonly word: string; readonly off?: boolean; run(): void }[] = [
    { word: 'New frame', run: addFrame },
    { word: `Duplicate ${frame.name}`, run: () => duplicateFrame(frame.id) },
    { word: 'Rename', run: onRename },
    { word: 'Earlier', off: index <= 0, run: () => moveFrame(frame.id, -1) },
    { word: 'Later', off: index >= frames.length - 1, run: () => moveFrame(frame.id, 1) },
    {
      word: frame.ownDesk ? 'Share the desk with the others' : 'Give it a desk of its own',
      off: frames.length < 2,
      run: () => setOwnDesk(frame.id, !frame.ownDesk),
    },
    { word: `Remove ${frame.name}`, off: frames.length < 2, run: () => removeFrame(frame.id) },
  ];
  return (
    <Menu.Root>
      <Menu.Trigger className="kg-word kg-frame-menu" data-testid="frame-menu">
        Frames
      </Menu.Trigger>
      <Menu.Portal>
        <Menu.Positioner className="kg-layer" sideOffset={6} align="start">
          <Menu.Popup className="kg-float kg-menu" finalFocus={false}>
            {items.map(({ word, off = false, run }) => (
              <Menu.Item key={word} className="kg-menu-item" disabled={off} onClick={run}>
                {word}
              </Menu.Item>
            ))}
            <p className="kg-menu-note">
              {frame.ownDesk
                ? 'This frame has a desk of its own: lights set here stay as they are elsewhere.'
                : 'Lights set here are set in every frame that shares this desk.'}
            </p>
          </Menu.Popup>
        </Menu.Positioner>
      </Menu.Portal>
    </Menu.Root>
  );
}
