import { frameToolsStore, type ReferenceWay, useFrameTools } from '../frame/tools/frameToolsStore.ts';
import { useFrame } from '../session/index.ts';
import { RangeSlider } from '../theme/index.ts';
import { PaletteStrip } from './PaletteStrip.tsx';
import './reference.css';
import { chooseReference, removeReference } from './takeReference.ts';
import { useFramePalette, usePhotoPalette } from './usePalettes.ts';

const WAYS: readonly (readonly [ReferenceWay, string])[] = [
  ['beside', 'Beside'],
  ['over', 'Over'],
  ['split', 'Split'],
];

/** How the photo is shown, and whether it stays. */
export function ReferenceOptions() {
  const { reference } = useFrame();
  const way = useFrameTools((state) => state.referenceWay);
  const opacity = useFrameTools((state) => state.referenceOpacity);
  if (!reference) {
    return (
      <>
        <p className="kg-quiet">No reference yet: drop a photo anywhere, or choose one.</p>
        <span className="kg-tool-rest">
          <button type="button" className="kg-word" onClick={chooseReference}>
            Choose a photo
          </button>
        </span>
      </>
    );
  }
  return (
    <>
      <fieldset className="kg-tool-choice" aria-label="Show the reference">
        {WAYS.map(([value, word]) => (
          <button
            key={value}
            type="button"
            className="kg-word"
            aria-pressed={value === way}
            onClick={() => frameToolsStore.setState({ referenceWay: value })}
          >
            {word}
          </button>
        ))}
      </fieldset>
      {way === 'over' && (
        <span className="kg-reference-opacity">
          <RangeSlider
            label="How strongly the reference lies over the frame"
            testId="reference-opacity"
            value={opacity}
            min={0}
            max={1}
            step={0.05}
            valueText={`${Math.round(opacity * 100)} percent`}
            onMove={(value) => frameToolsStore.setState({ referenceOpacity: value })}
          />
        </span>
      )}
      {way !== 'beside' && <SmallPalettes />}
      <span className="kg-tool-rest">
        <button type="button" className="kg-word" onClick={chooseReference}>
          Another
        </button>
        <button type="button" className="kg-word" onClick={removeReference}>
          Take away
        </button>
      </span>
    </>
  );
}

/** Photo over frame, where there is no room for more. */
function SmallPalettes() {
  const ofPhoto = usePhotoPalette(useFrame().reference);
  const ofFrame = useFramePalette();
  return (
    <div className="kg-palettes-small">
      <PaletteStrip label="Photo" palette={ofPhoto} />
      <PaletteStrip label="Frame" palette={ofFrame} />
    </div>
  );
}
