import { type KeyboardEvent, type ReactNode, type RefObject, useEffect, useRef } from 'react';

interface FindFieldProps {
  readonly fieldRef: RefObject<HTMLInputElement | null>;
  readonly label: string;
  readonly placeholder: string;
  /** Id of the list; its rows are `listId-0` and on. */
  readonly listId: string;
  readonly query: string;
  /** Rows found, and which of them Enter takes; -1 for none. */
  readonly count: number;
  readonly marked: number;
  /** Rows that Page up and Page down pass. */
  readonly page: number;
  onQuery(query: string): void;
  onMark(index: number): void;
  onTake(): void;
  /** Any other key; true when it was used. */
  onOtherKey?(key: string): boolean;
}

/** A field that finds rows of a list under it: the field keeps the focus, and its keys mark and take a row. */
export function FindField(props: FindFieldProps) {
  const { fieldRef, label, placeholder, listId, query, count, marked, page, onQuery, onMark, onTake } = props;
  const moves: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1, PageDown: page, PageUp: -page };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const move = moves[event.key];
    if (move !== undefined) onMark(Math.max(0, Math.min(count - 1, marked + move)));
    else if (event.key === 'Enter') onTake();
    else if (!props.onOtherKey?.(event.key)) return;
    event.preventDefault();
  };
  return (
    <input
      ref={fieldRef}
      className="kg-shelf-field"
      type="text"
      role="combobox"
      aria-label={label}
      aria-expanded="true"
      aria-controls={listId}
      aria-activedescendant={marked >= 0 ? `${listId}-${marked}` : undefined}
      autoComplete="off"
      spellCheck={false}
      placeholder={placeholder}
      value={query}
      onChange={(event) => onQuery(event.target.value)}
      onKeyDown={onKeyDown}
    />
  );
}

interface FindRowProps {
  readonly id: string;
  readonly className: string;
  readonly marked: boolean;
  onMark(): void;
  onTake(): void;
  readonly children: ReactNode;
}

/** A row of such a list; it comes into view when it is marked. */
export function FindRow({ id, className, marked, onMark, onTake, children }: FindRowProps) {
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (marked) ref.current?.scrollIntoView({ block: 'nearest' });
  }, [marked]);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the field above keeps the focus and takes the keys of the list.
    <div
      ref={ref}
      id={id}
      className={className}
      role="option"
      aria-selected={marked}
      tabIndex={-1}
      onPointerMove={onMark}
      onClick={onTake}
    >
      {children}
    </div>
  );
}
