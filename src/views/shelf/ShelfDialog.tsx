import { Dialog } from '@base-ui-components/react/dialog';
import { useId, useRef, useState } from 'react';
import { pickToBringIn } from '../bringIn/index.ts';
import { FindField, FindRow } from '../theme/index.ts';
import './shelf.css';
import {
  ROOM_WORDS,
  SHELF_ENTRIES,
  SHELF_ROOMS,
  type ShelfEntry,
  type ShelfRoom,
  searchShelf,
} from './shelfEntries.ts';
import { shelfPicture } from './shelfPictures.ts';
import { closeShelf, openShelf, useShelfRoom } from './shelfStore.ts';

/** Everything that can be put on a set, room by room, and one field to find it by. */
export function ShelfDialog() {
  const room = useShelfRoom();
  const fieldRef = useRef<HTMLInputElement>(null);
  return (
    <Dialog.Root open={room !== null} onOpenChange={(open) => !open && closeShelf()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-shelf-shade" />
        <Dialog.Popup className="kg-float kg-shelf" initialFocus={fieldRef} data-testid="shelf">
          <Dialog.Title className="kg-hidden">Put something on the set</Dialog.Title>
          {room !== null && <Shelf room={room} fieldRef={fieldRef} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

interface ShelfProps {
  readonly room: ShelfRoom;
  readonly fieldRef: React.RefObject<HTMLInputElement | null>;
}

function Shelf({ room, fieldRef }: ShelfProps) {
  const [query, setQuery] = useState('');
  const [index, setIndex] = useState(0);
  const listId = useId();
  const searching = query.trim() !== '';
  const found = searching ? searchShelf(SHELF_ENTRIES, query) : SHELF_ENTRIES.filter((entry) => entry.room === room);
  const marked = Math.min(index, found.length - 1);

  const enterRoom = (next: ShelfRoom) => {
    openShelf(next);
    setQuery('');
    setIndex(0);
    fieldRef.current?.focus();
  };
  const take = (entry: ShelfEntry | undefined) => {
    if (!entry) return;
    closeShelf();
    entry.add();
  };
  const stepRoom = (step: number) => {
    const at = SHELF_ROOMS.indexOf(room) + step;
    enterRoom(SHELF_ROOMS[(at + SHELF_ROOMS.length) % SHELF_ROOMS.length] ?? room);
  };
  const stepRoomByKey = (key: string): boolean => {
    if (searching || (key !== 'ArrowRight' && key !== 'ArrowLeft')) return false;
    stepRoom(key === 'ArrowRight' ? 1 : -1);
    return true;
  };

  return (
    <>
      <FindField
        fieldRef={fieldRef}
        label="Find on the shelf"
        placeholder="Find a light, a glass, a surface"
        listId={listId}
        query={query}
        count={found.length}
        marked={marked}
        page={6}
        onQuery={(next) => {
          setQuery(next);
          setIndex(0);
        }}
        onMark={setIndex}
        onTake={() => take(found[marked])}
        onOtherKey={stepRoomByKey}
      />
      <div className="kg-shelf-body">
        <nav className="kg-shelf-rooms" aria-label="Shelf">
          {SHELF_ROOMS.map((entry) => (
            <button
              key={entry}
              type="button"
              className="kg-word"
              tabIndex={-1}
              aria-current={!searching && entry === room ? 'true' : undefined}
              onClick={() => enterRoom(entry)}
            >
              {ROOM_WORDS[entry]}
            </button>
          ))}
        </nav>
        <div className="kg-shelf-list" role="listbox" id={listId} aria-label="On the shelf">
          {found.map((entry, i) => (
            <Row
              key={entry.key}
              id={`${listId}-${i}`}
              entry={entry}
              marked={i === marked}
              onMark={() => setIndex(i)}
              onTake={() => take(entry)}
            />
          ))}
          {found.length === 0 && <p className="kg-shelf-none">Nothing on the shelf by that name.</p>}
        </div>
      </div>
      <p className="kg-shelf-foot">
        Typical figures of the trade, not of any product.
        <button
          type="button"
          className="kg-word"
          onClick={() => {
            closeShelf();
            pickToBringIn();
          }}
        >
          From a file: glTF body, LM-63 or EULUMDAT light
        </button>
      </p>
    </>
  );
}

interface RowProps {
  readonly id: string;
  readonly entry: ShelfEntry;
  readonly marked: boolean;
  onMark(): void;
  onTake(): void;
}

function Row({ entry, ...row }: RowProps) {
  const picture = shelfPicture(entry.key);
  return (
    <FindRow className="kg-shelf-row" {...row}>
      <span className="kg-shelf-picture">
        {picture && <img src={picture} alt="" loading="lazy" decoding="async" draggable={false} />}
      </span>
      <span className="kg-shelf-name">{entry.name}</span>
      <span className="kg-shelf-line">{entry.line}</span>
    </FindRow>
  );
}
