import { Dialog } from '@base-ui-components/react/dialog';
import { useState } from 'react';
import { useComfort } from '../comfort/index.ts';
import { formatLength } from '../comfort/lengthText.ts';
import { addBody, type BodyStuff } from './addBody.ts';
import { BODY_UNITS, type BodyUnit, likelyUnit, UNIT_WORDS } from './bodyUnits.ts';
import './bringIn.css';
import { bringInStore, useBringIn, type WaitingBody } from './bringInStore.ts';

const STUFF: readonly (readonly [BodyStuff, string])[] = [
  ['matte', 'Matte'],
  ['gloss', 'Gloss'],
  ['metal', 'Metal'],
  ['clear', 'Clear glass'],
];
/** Larger or smaller than this stands on no tabletop. */
const LARGEST_M = 5;
const SMALLEST_M = 0.002;

const letGo = (): void => bringInStore.setState({ waiting: null });

/** Asks what a body from a file was drawn in, and what it is made of. */
export function BringInDialog() {
  const waiting = useBringIn();
  return (
    <Dialog.Root open={waiting !== null} onOpenChange={(open) => !open && letGo()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-help-shade" />
        <Dialog.Popup className="kg-float kg-help kg-bring" data-testid="bring-in">
          {waiting && <Questions key={waiting.name} waiting={waiting} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function Questions({ waiting }: { readonly waiting: WaitingBody }) {
  const { name, body } = waiting;
  const [unit, setUnit] = useState<BodyUnit>(() => likelyUnit(body.size));
  const [stuff, setStuff] = useState<BodyStuff>('matte');
  const lengths = useComfort((comfort) => comfort.lengths);
  const sizeWords = (of: BodyUnit): string =>
    body.size.map((side) => formatLength(side * BODY_UNITS[of], lengths)).join(' × ');
  const largestM = Math.max(...body.size) * BODY_UNITS[unit];
  const fits = largestM <= LARGEST_M && largestM >= SMALLEST_M;
  const isOpen = body.openEdges > 0;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        addBody(waiting, unit, stuff);
        letGo();
      }}
    >
      <Dialog.Title className="kg-help-title">Bring in {name}</Dialog.Title>
      <fieldset className="kg-bring-choice">
        <legend className="kg-label">Drawn in</legend>
        {(Object.keys(BODY_UNITS) as BodyUnit[]).map((of) => (
          <label key={of}>
            <input type="radio" name="unit" value={of} checked={of === unit} onChange={() => setUnit(of)} />
            <span>{UNIT_WORDS[of]}</span>
            <span className="kg-figure">{sizeWords(of)}</span>
          </label>
        ))}
      </fieldset>
      <fieldset className="kg-bring-choice">
        <legend className="kg-label">Made of</legend>
        {STUFF.map(([of, words]) => (
          <label key={of}>
            <input
              type="radio"
              name="stuff"
              value={of}
              checked={of === stuff}
              disabled={of === 'clear' && isOpen}
              onChange={() => setStuff(of)}
            />
            <span>{words}</span>
          </label>
        ))}
      </fieldset>
      <p className="kg-help-note">
        {isOpen
          ? `The body is open along ${body.openEdges} edges, so it cannot be filled with glass.`
          : 'The body is closed.'}{' '}
        {body.triangleCount} triangles.{' '}
        {fits ? 'It is put beside the hero.' : 'No tabletop holds that size: choose another unit.'}
      </p>
      <p className="kg-bring-words">
        <button type="submit" className="kg-action" data-main disabled={!fits}>
          Put it on the set
        </button>
        <Dialog.Close className="kg-word">Cancel</Dialog.Close>
      </p>
    </form>
  );
}
