import { Dialog } from '@base-ui-components/react/dialog';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import {
  type Brief,
  FIRST_BRIEF,
  FORMAT_SENSOR_MM,
  MOODS,
  PICTURE_FORMATS,
  SURFACE_CHOICES,
  setupFromBrief,
} from '../../document/starting/index.ts';
import { GLASS_NAMES, GLASS_SHAPES, type GlassShape } from '../../scene/glassDefaults.ts';
import { findShelfItem, shelfOf } from '../../scene/pieceShelf.ts';
import { useServices } from '../session/index.ts';
import { shelfPicture } from '../shelf/shelfPictures.ts';
import { startPicture } from './startPictures.ts';
import { closeStart, openStart } from './startStore.ts';

const GLASSES: readonly GlassShape[] = GLASS_SHAPES.filter((shape) => shape !== 'ownProfile');

/** What somebody wants of a picture, in pictures; it gives a lit setup. */
export function BriefPage() {
  const { startSetup } = useServices();
  const [brief, setBrief] = useState<Brief>(FIRST_BRIEF);
  const [surfaceChosen, setSurfaceChosen] = useState(false);
  const set = (change: Partial<Brief>) => setBrief((before) => ({ ...before, ...change }));
  const setUp = () => {
    startSetup(setupFromBrief(brief));
    closeStart();
  };
  return (
    <div className="kg-start-page kg-brief">
      <header className="kg-start-head">
        <Dialog.Title className="kg-start-mark">From a brief</Dialog.Title>
        <p className="kg-start-line">Choose what the picture is of. Everything can be changed on the set afterwards.</p>
        <p className="kg-start-back">
          <button type="button" className="kg-word" onClick={() => openStart()}>
            Other ways to begin
          </button>
        </p>
      </header>

      <Choices title="Mood" wide>
        {MOODS.map(({ mood, name, line, surfaceId }) => (
          <Choice
            key={mood}
            name={name}
            line={line}
            picture={startPicture(`mood-${mood}`)}
            chosen={brief.mood === mood}
            onChoose={() => set({ mood, ...(surfaceChosen ? {} : { surfaceId }) })}
          />
        ))}
      </Choices>
      <Choices title="Drink">
        {shelfOf('drinks').map(({ id, name }) => (
          <Choice
            key={id}
            name={name}
            picture={shelfPicture(id)}
            chosen={brief.drinkId === id}
            onChoose={() => set({ drinkId: id })}
          />
        ))}
      </Choices>
      <Choices title="Glass">
        <Choice
          name="As usually served"
          picture={shelfPicture(brief.drinkId)}
          chosen={brief.glass === null}
          onChoose={() => set({ glass: null })}
        />
        {GLASSES.map((shape) => (
          <Choice
            key={shape}
            name={GLASS_NAMES[shape]}
            picture={shelfPicture(`glass-${shape}`)}
            chosen={brief.glass === shape}
            onChoose={() => set({ glass: shape })}
          />
        ))}
      </Choices>
      <Choices title="Surface">
        {SURFACE_CHOICES.map((id) => (
          <Choice
            key={id}
            name={findShelfItem(id)?.name ?? id}
            picture={shelfPicture(id)}
            chosen={brief.surfaceId === id}
            onChoose={() => {
              setSurfaceChosen(true);
              set({ surfaceId: id });
            }}
          />
        ))}
      </Choices>
      <Choices title="Format">
        {PICTURE_FORMATS.map((format) => {
          const [widthMm, heightMm] = FORMAT_SENSOR_MM[format];
          return (
            <button
              key={format}
              type="button"
              className="kg-format"
              aria-pressed={brief.format === format}
              onClick={() => set({ format })}
            >
              <span style={{ aspectRatio: `${widthMm} / ${heightMm}` }} data-upright={heightMm > widthMm} />
              {format}
            </button>
          );
        })}
      </Choices>
      <footer className="kg-brief-foot">
        <button type="button" className="kg-action" data-main data-testid="brief-done" onClick={setUp}>
          Set it up
        </button>
        <p className="kg-quiet">{sayBrief(brief)}</p>
      </footer>
    </div>
  );
}

function sayBrief({ drinkId, glass, surfaceId, mood, format }: Brief): string {
  const drink = findShelfItem(drinkId)?.name ?? drinkId;
  const surface = findShelfItem(surfaceId)?.name.toLowerCase() ?? surfaceId;
  const light = MOODS.find((entry) => entry.mood === mood)?.name.toLowerCase() ?? mood;
  return `${drink}${glass === null ? '' : ` in a ${GLASS_NAMES[glass].toLowerCase()}`} on ${surface}, ${light}, ${format}.`;
}

interface ChoicesProps {
  readonly title: string;
  readonly wide?: boolean;
  readonly children: ReactNode;
}

function Choices({ title, wide = false, children }: ChoicesProps) {
  return (
    <fieldset className="kg-choices" data-wide={wide}>
      <legend>{title}</legend>
      <div>{children}</div>
    </fieldset>
  );
}

interface ChoiceProps {
  readonly name: string;
  readonly line?: string;
  readonly picture?: string | undefined;
  readonly chosen: boolean;
  onChoose(): void;
}

function Choice({ name, line, picture, chosen, onChoose }: ChoiceProps) {
  const ref = useRef<HTMLButtonElement>(null);
  // What is chosen to begin with may lie beyond the edge of its row.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only as the page opens; later choices are in view
  useEffect(() => {
    if (chosen) ref.current?.scrollIntoView({ block: 'nearest', inline: 'center' });
  }, []);
  return (
    <button ref={ref} type="button" className="kg-choice" aria-pressed={chosen} title={line ?? name} onClick={onChoose}>
      <span className="kg-way-picture">{picture && <img src={picture} alt="" loading="lazy" draggable={false} />}</span>
      <span className="kg-choice-name">{name}</span>
    </button>
  );
}
