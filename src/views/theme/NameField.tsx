import { useState } from 'react';

interface NameFieldProps {
  readonly className: string;
  readonly label: string;
  readonly name: string;
  readonly maxLength: number;
  /** Called with another name that is not blank. */
  onRename(name: string): void;
}

/** A name that is edited where it stands: Enter or leaving keeps it, Escape lets the old one be. */
export function NameField({ className, label, name, maxLength, onRename }: NameFieldProps) {
  const [draft, setDraft] = useState<string | null>(null);
  const commit = () => {
    const wanted = draft?.trim();
    setDraft(null);
    if (wanted && wanted !== name) onRename(wanted);
  };
  return (
    <input
      className={className}
      aria-label={label}
      maxLength={maxLength}
      autoComplete="off"
      spellCheck={false}
      value={draft ?? name}
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
