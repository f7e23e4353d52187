import { Dialog } from '@base-ui-components/react/dialog';
import { useId, useMemo, useRef, useState } from 'react';
import { useServices } from '../session/index.ts';
import { FindField, FindRow } from '../theme/index.ts';
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
  return (
    <>
      <FindField
        fieldRef={fieldRef}
        label="Find something to do"
        placeholder="What next? A light, a frame, a remedy, a word of what you want"
        listId={listId}
        query={query}
        count={found.length}
        marked={marked}
        page={8}
        onQuery={(next) => {
          setQuery(next);
          setIndex(0);
        }}
        onMark={setIndex}
        onTake={() => take(found[marked])}
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

function Row({ action, ...row }: RowProps) {
  return (
    <FindRow className="kg-search-row" {...row}>
      <span className="kg-search-name">{action.name}</span>
      <span className="kg-quiet">{action.part}</span>
      <span className="kg-figure kg-quiet">{action.keys}</span>
    </FindRow>
  );
}
