import { useEffect, useState } from 'react';
import { documentStore, useDocument } from '../session/index.ts';

/** The title of the setup, edited where it stands. */
export function SetupTitle() {
  const title = useDocument((state) => state.setup.title);
  const [draft, setDraft] = useState<string | null>(null);
  useEffect(() => {
    document.title = `${title} \u00b7 Keyglass`;
  }, [title]);
  const commit = () => {
    const wanted = draft?.trim();
    setDraft(null);
    if (wanted && wanted !== title) documentStore.apply('Title', [{ op: 'setTitle', title: wanted }]);
  };
  return (
    <input
      className="kg-top-title"
      aria-label="Setup title"
      data-testid="setup-title"
      maxLength={120}
      autoComplete="off"
      spellCheck={false}
      value={draft ?? title}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key !== 'Escape') return;
        setDraft(null);
        requestAnimationFrame(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
      }}
    />
  );
}
