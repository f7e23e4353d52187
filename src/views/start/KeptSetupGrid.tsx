import { useCallback, useEffect, useState } from 'react';
import { type KeptSetup, type KeptSetups, showNotice } from '../session/index.ts';
import { Picture } from './Picture.tsx';
import { closeStart } from './startStore.ts';

/** The setups of this browser: opened by their picture, named, copied and taken away beside it. */
export function KeptSetupGrid({ kept }: { readonly kept: KeptSetups }) {
  const [setups, setSetups] = useState<readonly KeptSetup[] | null>(null);
  const refresh = useCallback(() => void kept.list().then(setSetups), [kept]);
  useEffect(refresh, [refresh]);
  if (setups === null || setups.length === 0) return null;
  return (
    <section className="kg-start-section" aria-label="Your setups" data-testid="kept-setups">
      <h2>Your setups</h2>
      <p className="kg-quiet">Kept in this browser as you work. Save writes one to a file.</p>
      <ul className="kg-start-grid">
        {setups.map((setup) => (
          <li key={setup.id} data-testid="kept-setup">
            <KeptCard setup={setup} kept={kept} onChange={refresh} />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface KeptCardProps {
  readonly setup: KeptSetup;
  readonly kept: KeptSetups;
  onChange(): void;
}

function KeptCard({ setup, kept, onChange }: KeptCardProps) {
  const [naming, setNaming] = useState(false);
  const { id, title, frameCount, changedAtMs, picture, open } = setup;
  const remove = async () => {
    const putBack = await kept.remove(id);
    onChange();
    showNotice({
      tone: 'done',
      text: `Removed ${title}.`,
      action: { label: 'Undo', run: () => void putBack().then(onChange) },
    });
  };
  return (
    <>
      <button
        type="button"
        className="kg-way"
        aria-current={open ? 'true' : undefined}
        onClick={() => {
          closeStart();
          void kept.open(id);
        }}
      >
        <Picture src={picture} />
        {!naming && <span className="kg-way-name">{title}</span>}
      </button>
      {naming && (
        <input
          className="kg-way-title"
          aria-label="Name of the setup"
          // biome-ignore lint/a11y/noAutofocus: it appears because somebody asked to type in it
          autoFocus
          defaultValue={title}
          maxLength={120}
          onFocus={(event) => event.currentTarget.select()}
          onBlur={(event) => {
            const wanted = event.currentTarget.value.trim();
            setNaming(false);
            if (wanted !== '' && wanted !== title) void kept.rename(id, wanted).then(onChange);
          }}
          onKeyDown={(event) => {
            if (event.key === 'Enter') event.currentTarget.blur();
            if (event.key !== 'Escape') return;
            event.stopPropagation();
            setNaming(false);
          }}
        />
      )}
      <p className="kg-way-foot">
        <span className="kg-quiet">
          {open ? 'open now' : sayWhen(changedAtMs)}, {frameCount === 1 ? 'one frame' : `${frameCount} frames`}
        </span>
        <span>
          <button type="button" className="kg-word" onClick={() => setNaming(true)}>
            Rename
          </button>
          <button type="button" className="kg-word" onClick={() => void kept.duplicate(id).then(onChange)}>
            Duplicate
          </button>
          {!open && (
            <button type="button" className="kg-word" onClick={() => void remove()}>
              Remove
            </button>
          )}
        </span>
      </p>
    </>
  );
}

const sayWhen = (atMs: number): string =>
  new Date(atMs).toLocaleString('en-GB', { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' });
