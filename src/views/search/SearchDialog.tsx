import { Dialog } from '@base-ui-components/react/dialog';
import { type KeyboardEvent, useEffect, useId, useMemo, useRef, useState } from 'react';
import { useServices } from '../session/index.ts';
import type { Action } from './action.ts';
import { listActions } from './actions.ts';
import './search.css';
import { searchActions } from './searchActions.ts';
import { closeSearch, useSearchOpen } from './searchStore.ts';

/** As many lines as anybody reads; typing on brings the rest. */
const MOST_SHOWN = 60;

/** One field to find anything that can be done, and to do it. */
export function SearchDialog({ openHelp }: { openHelp(): void }) {
  const open = useSearchOpen();
  const fieldRef = useRef<HTMLInputElement>(null);
  return (
    <Dialog.Root open={open} onOpenChange={(next) => !next && closeSearch()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-shelf-shade" />
        <Dialog.Popup className="kg-float kg-search" initialFocus={fieldRef} finalFocus={false} data-testid="search">
          <Dialog.Title className="kg-hidden">Find something to do</Dialog.Title>
          {open && <Search fieldRef={fieldRef} openHelp={openHelp} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

interface SearchProps {
  readonly fieldRef: React.RefObject<HTMLInputElement | null>;
  openHelp(): void;
}

function Search({ fieldRef, openHelp }: SearchProps) {
  const services = useServices();
  const [query, setQuery] = useState('');
  const [index, setIndex] = useState(0);
  const listId = useId();
  // What can be done is looked at once, as the field opens.
  const actions = useMemo(() => listActions({ services, openHelp }), [services, openHelp]);
  const found = searchActions(actions, query).slice(0, MOST_SHOWN);
  const marked = Math.min(index, found.length - 1);
  const take = (action: Action | undefined) => {
    if (!action) return;
    closeSearch();
    action.run();
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const moves: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 };
    const move = moves[event.key];
    if (move !== undefined) setIndex(Math.max(0, Math.min(found.length - 1, marked + move)));
    else if (event.key === 'Enter') take(found[marked]);
    else return;
    event.preventDefault();
  };
  return (
    <>
      <input
        ref={fieldRef}
        className="kg-shelf-field"
        type="text"
        role="combobox"
        aria-label="Find something to do"
        aria-expanded="true"
        aria-controls={listId}
        aria-activedescendant={found[marked] ? `${listId}-${marked}` : undefined}
        autoComplete="off"
        spellCheck={false}
        placeholder="What next? A light, a frame, a remedy, a word of what you want"
        value={query}
        onChange={(event) => {
          setQuery(event.target.value);
          setIndex(0);
        }}
        onKeyDown={onKeyDown}
      />
      <div className="kg-search-list" role="listbox" id={listId} aria-label="What can be done">
        {found.map((action, i) => (
          <Row
            key={action.id}
            id={`${listId}-${i}`}
            action={action}
            marked={i === marked}
            onMark={() => setIndex(i)}
            onTake={() => take(action)}
          />
        ))}
        {found.length === 0 && <p className="kg-search-none">Nothing goes by that name.</p>}
      </div>
    </>
  );
}

interface RowProps {
  readonly id: string;
  readonly action: Action;
  readonly marked: boolean;
  onMark(): void;
  onTake(): void;
}

function Row({ id, action, marked, onMark, onTake }: RowProps) {
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (marked) ref.current?.scrollIntoView({ block: 'nearest' });
  }, [marked]);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the field above keeps the focus and takes the keys of the list.
    <div
      ref={ref}
      id={id}
      className="kg-search-row"
      role="option"
      aria-selected={marked}
      tabIndex={-1}
      onPointerMove={onMark}
      onClick={onTake}
    >
      <span className="kg-search-name">{action.name}</span>
      <span className="kg-quiet">{action.part}</span>
      <span className="kg-figure kg-quiet">{action.keys}</span>
    </div>
  );
}
