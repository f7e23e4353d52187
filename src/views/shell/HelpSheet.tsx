import { Dialog } from '@base-ui-components/react/dialog';
import { useRef } from 'react';
import { FRAME_TOOLS } from '../frame/tools/frameToolsStore.ts';
import { TOOL_WORDS } from '../frame/tools/toolWords.ts';
import './helpSheet.css';

interface Props {
  readonly open: boolean;
  onOpenChange(open: boolean): void;
}

interface KeyGroup {
  readonly title: string;
  readonly keys: readonly (readonly [key: string, does: string])[];
}

const GROUPS: readonly KeyGroup[] = [
  {
    title: 'Anything',
    keys: [
      ['Ctrl + K', 'Find anything that can be done'],
      ['A', 'Add something from the shelf'],
      ['Ctrl + Z', 'Undo'],
      ['Ctrl + Shift + Z', 'Redo'],
      ['Ctrl + S', 'Save to a file'],
      ['Ctrl + O', 'Open a file'],
      ['Ctrl + Shift + O', 'Setups and ways to begin'],
      ['Esc', 'Put back what is held, then let go'],
      ['?', 'This sheet'],
    ],
  },
  {
    title: 'Selecting',
    keys: [
      ['Click', 'Select, with its group'],
      ['Shift + click', 'Add to the selection, or take out'],
      ['Alt + click', 'One thing out of its group'],
      ['Shift + drag on paper', 'A box round several things'],
      ['Ctrl + A', 'Everything'],
      ['Ctrl + D', 'Duplicate'],
      ['Ctrl + G', 'Group; with Shift, take apart'],
      ['L', 'Lock or unlock'],
      ['H', 'Leave out of this frame'],
      ['Delete', 'Remove'],
    ],
  },
  {
    title: 'Placing',
    keys: [
      ['Arrows', 'Nudge 1 cm; with Shift 10 cm'],
      ['Alt + up, down', 'Raise or lower'],
      ['Shift while dragging', 'Keep to one axis'],
      ['Alt while dragging', 'No snapping'],
      ['X', 'Onto the centre line'],
      ['Q', 'Look at the subject'],
      ['R', 'Tape'],
      ['Drag a highlight', 'In the picture: its light follows'],
      ['Drag a shadow', 'In the picture: its light follows'],
    ],
  },
  {
    title: 'Lights',
    keys: [
      ['M', 'Selected light off or on'],
      ['S', 'Solo the selected light'],
    ],
  },
  {
    title: 'Looking',
    keys: [
      ['1 \u2026 9', 'Frame'],
      ['Ctrl + Shift + F', 'New frame'],
      ['F', 'Picture or stops'],
      ['D', 'Plan, front, side'],
      ...FRAME_TOOLS.map((tool) => [TOOL_WORDS[tool].key, TOOL_WORDS[tool].word] as const),
      ['K', 'Keep this picture'],
    ],
  },
];

export function HelpSheet({ open, onOpenChange }: Props) {
  // The sheet itself takes the focus, as its first control stands at its foot and would be scrolled to.
  const sheetRef = useRef<HTMLDivElement>(null);
  return (
    <Dialog.Root open={open} onOpenChange={onOpenChange}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-help-shade" />
        <Dialog.Popup ref={sheetRef} className="kg-float kg-help" initialFocus={sheetRef} tabIndex={-1}>
          <Dialog.Title className="kg-help-title">Keys</Dialog.Title>
          <div className="kg-help-groups">
            {GROUPS.map(({ title, keys }) => (
              <section key={title}>
                <h3 className="kg-label">{title}</h3>
                <dl className="kg-help-keys">
                  {keys.map(([key, does]) => (
                    <div key={key}>
                      <dt className="kg-figure">{key}</dt>
                      <dd>{does}</dd>
                    </div>
                  ))}
                </dl>
              </section>
            ))}
          </div>
          <p className="kg-help-note">
            Everything on screen follows from one file. It is kept in this browser as you work; Save writes it to disk.
            The picture, the checks and the meter all read the same traced light.
          </p>
          <Dialog.Close className="kg-action">Close</Dialog.Close>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
