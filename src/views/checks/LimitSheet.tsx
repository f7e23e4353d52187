import type { CheckName } from '../../analysis/contracts.ts';
import { DEFAULT_LIMITS } from '../../analysis/limits.ts';
import { documentStore, editFrame, useDocument, useFrame } from '../session/index.ts';
import { StepField } from '../theme/index.ts';
import { CHECK_WORDS } from './checkWords.ts';
import { LIMIT_FIELDS, type LimitField, limitFromText, limitText, numberInForce, stepLimit } from './limitFields.ts';

/** The limits of one check in the frame on screen. What is set to the usual figure is left out of the document. */
export function LimitSheet({ check }: { readonly check: CheckName }) {
  const { limits } = useFrame();
  const frameCount = useDocument((state) => state.setup.frames.length);
  const fields = LIMIT_FIELDS[check];
  const keys = fields.map(({ key }) => key);
  const isSet = keys.some((key) => limits[key] !== undefined);
  const title = CHECK_WORDS[check].title.toLowerCase();
  const set = (field: LimitField, value: number | string) =>
    editFrame(`Limit of ${title}`, { limits: { [field.key]: value === DEFAULT_LIMITS[field.key] ? null : value } });
  return (
    <div className="kg-limits" data-testid="limits" data-check={check}>
      <div className="kg-limits-fields">
        {fields.map((field) =>
          field.type === 'number' ? (
            <StepField
              key={field.key}
              label={field.label}
              testId={`limit-${field.key}`}
              text={limitText(numberInForce(limits, field.key), field.unit)}
              value={numberInForce(limits, field.key) ?? 0}
              onStep={(direction, large) =>
                set(field, stepLimit(numberInForce(limits, field.key), field.unit, direction, large))
              }
              onType={(text) => {
                if (text.trim() === '') return editFrame(`Limit of ${title}`, { limits: { [field.key]: null } });
                const value = limitFromText(text, field.unit);
                return Number.isFinite(value) && set(field, value);
              }}
            />
          ) : (
            <WordChoice
              key={field.key}
              field={field}
              now={limits[field.key] ?? DEFAULT_LIMITS[field.key]}
              onChoose={(value) => set(field, value)}
            />
          ),
        )}
      </div>
      <p className="kg-limits-words">
        <button
          type="button"
          className="kg-word"
          disabled={!isSet}
          onClick={() =>
            editFrame(`Usual limits of ${title}`, { limits: Object.fromEntries(keys.map((key) => [key, null])) })
          }
        >
          As usual
        </button>
        {frameCount > 1 && (
          <button
            type="button"
            className="kg-word"
            onClick={() => {
              const patch = Object.fromEntries(keys.map((key) => [key, limits[key] ?? null]));
              const { frames } = documentStore.getState().setup;
              documentStore.apply(
                `Limits of ${title} in every frame`,
                frames.map(({ id }) => ({ op: 'updateFrame' as const, id, patch: { limits: patch } })),
              );
            }}
          >
            In every frame
          </button>
        )}
      </p>
    </div>
  );
}

function WordChoice(props: {
  readonly field: Extract<LimitField, { type: 'word' }>;
  readonly now: string;
  onChoose(value: string): void;
}) {
  const { field, now, onChoose } = props;
  return (
    <fieldset className="kg-limits-choice" aria-label={field.label}>
      <span className="kg-label">{field.label}</span>
      <span>
        {Object.entries(field.words).map(([value, shown]) => (
          <button
            key={value}
            type="button"
            className="kg-word"
            aria-pressed={value === now}
            onClick={() => onChoose(value)}
          >
            {shown}
          </button>
        ))}
      </span>
    </fieldset>
  );
}
