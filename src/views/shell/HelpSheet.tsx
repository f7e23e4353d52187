import { Dialog } from '@base-ui-components/react/dialog';
import './helpSheet.css';

interface Props {
  readonly open: boolean;
  onOpenChange(open: boolean): void;
}

const KEYS: readonly (readonly [string, string])[] = [
  ['F', 'Picture or stops'],
  ['1 … 9', 'Frame'],
  ['Arrows', 'Nudge the selected thing 1 cm'],
  ['Shift + arrows', 'Nudge 10 cm'],
  ['Alt + up, down', 'Raise or lower'],
  ['A', 'Add something from the shelf'],
  ['M', 'Selected light off or on'],
  ['S', 'Solo the selected light'],
  ['Esc', 'Cancel a drag, then deselect'],
  ['Ctrl + Z', 'Undo'],
  ['Ctrl + Shift + Z', 'Redo'],
  ['Ctrl + S', 'Save to a file'],
  ['Ctrl + O', 'Open a file'],
  ['?', 'This sheet'],
];

export function HelpSheet({ open, onOpenChange }: Props) {
  return (
    <Dialog.Root open={open} onOpenChange={onOpenChange}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-help-shade" />
        <Dialog.Popup className="kg-float kg-help">
          <Dialog.Title className="kg-help-title">Keys</Dialog.Title>
          <dl className="kg-help-keys">
            {KEYS.map(([key, action]) => (
              <div key={key}>
                <dt className="kg-figure">{key}</dt>
                <dd>{action}</dd>
              </div>
            ))}
          </dl>
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
