import { useState } from 'react';
import { documentStore } from '../session/index.ts';
import type { RecordSheet } from './fields.ts';

/** The name of the selected record, edited where it stands. The turntable has none. */
export function RecordTitle({ sheet }: { readonly sheet: RecordSheet }) {
  const [draft, setDraft] = useState<string | null>(null);
  const { rename } = sheet;
  if (!rename) return <h2>{sheet.title}</h2>;
  const commit = () => {
    const name = draft?.trim();
    setDraft(null);
    if (name && name !== sheet.title) documentStore.apply(`Rename ${sheet.title}`, [rename(name)]);
  };
  return (
    <input
      className="kg-inspector-title"
      aria-label="Name"
      maxLength={120}
      autoComplete="off"
      spellCheck={false}
      value={draft ?? sheet.title}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key === 'Escape') {
          event.stopPropagation();
          setDraft(null);
        }
      }}
    />
  );
}
