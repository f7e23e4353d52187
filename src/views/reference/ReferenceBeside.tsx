import { paletteDifference } from '../../core/color/palette.ts';
import { useFrameTools, useIsToolOpen } from '../frame/tools/frameToolsStore.ts';
import { useFrame } from '../session/index.ts';
import { PaletteStrip } from './PaletteStrip.tsx';
import './reference.css';
import { chooseReference } from './takeReference.ts';
import { useFramePalette, usePhotoPalette } from './usePalettes.ts';

/** The reference photo in the place beside the frame, with its colours over those of the frame. */
export function ReferenceBeside() {
  const open = useIsToolOpen('reference');
  const way = useFrameTools((state) => state.referenceWay);
  const { reference } = useFrame();
  if (!open || (way !== 'beside' && reference)) return null;
  return (
    <aside className="kg-reference" aria-label="Reference photo" data-testid="reference">
      {reference ? <Photo /> : <Empty />}
    </aside>
  );
}

function Photo() {
  const { reference } = useFrame();
  const ofPhoto = usePhotoPalette(reference);
  const ofFrame = useFramePalette();
  if (!reference) return null;
  const difference = paletteDifference(ofPhoto, ofFrame);
  return (
    <>
      <div className="kg-reference-photo">
        <img src={reference.dataUrl} alt={`Reference: ${reference.name}`} />
      </div>
      <div className="kg-reference-colours">
        <span className="kg-label">Photo</span>
        <PaletteStrip label="Photo" palette={ofPhoto} />
        <span className="kg-label">Frame</span>
        <PaletteStrip label="Frame" palette={ofFrame} />
        <p className="kg-quiet">
          {Number.isFinite(difference) ? (
            <>
              The colours are <span className="kg-figure">{difference.toFixed(1)}</span> apart (CIEDE2000; under 5 is
              close).
            </>
          ) : (
            'The colours of the frame come with the traced picture.'
          )}
        </p>
      </div>
    </>
  );
}

function Empty() {
  return (
    <div className="kg-reference-empty">
      <p>Drop a photo of the mood here.</p>
      <p className="kg-quiet">It is kept in the setup, at most 1600 px long, and never leaves this machine.</p>
      <button type="button" className="kg-action" onClick={chooseReference}>
        Choose a photo
      </button>
    </div>
  );
}
