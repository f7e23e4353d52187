import { type KeyboardEvent, useId, useRef, useState } from 'react';
import './stepField.css';

interface StepFieldProps {
  readonly label: string;
  /** As it reads when nobody is typing: 'f/8', '1/50', '5600 K'. */
  readonly text: string;
  /** Number behind the text, for assistive technology. */
  readonly value: number;
  /** One notch up or down; `large` with Shift held. */
  onStep(direction: 1 | -1, large: boolean): void;
  /** What somebody typed. Returns false when it cannot be read; the old value then stays. */
  onType(text: string): boolean;
  readonly showLabel?: boolean;
  readonly testId?: string;
}

/**
 * A setting on a scale: type it, or step it with the arrow keys or with the words beside it. Steps follow the scale of
 * the trade (thirds of a stop, marked shutter times), not equal differences of a number.
 */
export function StepField({ label, text, value, onStep, onType, showLabel = true, testId }: StepFieldProps) {
  const id = useId();
  const inputRef = useRef<HTMLInputElement>(null);
  const [draft, setDraft] = useState<string | null>(null);
  const commitDraft = () => {
    if (draft !== null && draft !== text) onType(draft);
    setDraft(null);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      setDraft(null);
      onStep(event.key === 'ArrowUp' ? 1 : -1, event.shiftKey);
    } else if (event.key === 'Enter') {
      commitDraft();
      requestAnimationFrame(() => inputRef.current?.select());
    } else if (event.key === 'Escape') {
      event.stopPropagation();
      setDraft(null);
      inputRef.current?.blur();
    }
  };
  return (
    <div className="kg-step">
      <label className={showLabel ? 'kg-label' : 'kg-hidden'} htmlFor={id}>
        {label}
      </label>
      <div className="kg-step-row">
        <input
          ref={inputRef}
          id={id}
          data-testid={testId}
          className="kg-figure kg-step-input"
          role="spinbutton"
          aria-valuenow={value}
          aria-valuetext={text}
          autoComplete="off"
          spellCheck={false}
          value={draft ?? text}
          onFocus={(event) => event.currentTarget.select()}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={commitDraft}
          onKeyDown={onKeyDown}
        />
        <span className="kg-step-ends" aria-hidden="true">
          <button type="button" tabIndex={-1} onClick={(event) => onStep(-1, event.shiftKey)}>
            −
          </button>
          <button type="button" tabIndex={-1} onClick={(event) => onStep(1, event.shiftKey)}>
            +
          </button>
        </span>
      </div>
    </div>
  );
}
