import { useState } from 'react';
import type { CheckName, Finding } from '../../analysis/contracts.ts';
import { withMark } from '../../document/checkSettings.ts';
import { editFrame, getFrame, useFrame } from '../session/index.ts';

/** Findings of these checks may be just what is wanted: a catch-light, a glow, a lamp in the picture. */
const MAY_BE_WANTED: ReadonlySet<CheckName> = new Set<CheckName>([
  'reflections',
  'glow',
  'practical',
  'thingsInFrame',
  'flare',
  'colourMix',
  'spillAndShadows',
]);

/** Says of one finding that it is wanted, unwanted, or to be left, and why. Kept with the frame and undone like any edit. */
export function FindingMarks({ finding }: { readonly finding: Finding }) {
  const mark = useFrame().marks?.find(({ findingId }) => findingId === finding.id);
  const [asking, setAsking] = useState<'wanted' | 'unwanted' | null>(null);
  const keep = (label: string, wanted: boolean | null, reason = '') => {
    const marks = withMark(getFrame(), finding.id, wanted, reason);
    editFrame(label, { marks: marks.length > 0 ? marks : null });
    setAsking(null);
  };
  if (mark) {
    return (
      <p className="kg-mark" data-testid="mark">
        <span>
          {wordOf(finding.check, mark.wanted)}
          {mark.reason !== '' && <span className="kg-quiet">: {mark.reason}</span>}
        </span>
        <button type="button" className="kg-word" onClick={() => keep('Take back a mark', null)}>
          Take back
        </button>
      </p>
    );
  }
  if (asking !== null) {
    return (
      <ReasonForm
        word={wordOf(finding.check, asking === 'wanted')}
        onKeep={(reason) => keep(`Mark as ${asking}`, asking === 'wanted', reason)}
        onLeave={() => setAsking(null)}
      />
    );
  }
  return (
    <p className="kg-mark">
      <button type="button" className="kg-word" onClick={() => setAsking('wanted')}>
        {MAY_BE_WANTED.has(finding.check) ? 'It is wanted' : 'Let it be'}
      </button>
      {MAY_BE_WANTED.has(finding.check) && (
        <button type="button" className="kg-word" onClick={() => setAsking('unwanted')}>
          It is unwanted
        </button>
      )}
    </p>
  );
}

const wordOf = (check: CheckName, wanted: boolean): string =>
  wanted ? (MAY_BE_WANTED.has(check) ? 'Wanted' : 'Let be') : 'Unwanted';

function ReasonForm(props: { readonly word: string; onKeep(reason: string): void; onLeave(): void }) {
  const { word, onKeep, onLeave } = props;
  const [reason, setReason] = useState('');
  return (
    <form
      className="kg-mark"
      onSubmit={(event) => {
        event.preventDefault();
        onKeep(reason.trim());
      }}
    >
      <label className="kg-mark-reason">
        <span className="kg-label">{word}, because</span>
        <input
          // biome-ignore lint/a11y/noAutofocus: the field comes up because somebody asked to write in it.
          autoFocus
          type="text"
          maxLength={300}
          autoComplete="off"
          value={reason}
          data-testid="mark-reason"
          onChange={(event) => setReason(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return;
            event.stopPropagation();
            onLeave();
          }}
        />
      </label>
      <button type="submit" className="kg-word">
        Keep
      </button>
      <button type="button" className="kg-word" onClick={onLeave}>
        Cancel
      </button>
    </form>
  );
}
