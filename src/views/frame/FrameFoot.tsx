import type { RefObject } from 'react';
import { documentStore, type PictureMode, sessionStore, useServices, useSession } from '../session/index.ts';
import { traceStore, useTrace } from './traceStore.ts';

const MODES: readonly (readonly [PictureMode, string])[] = [
  ['picture', 'Picture'],
  ['stops', 'Stops'],
  ['linear', 'Linear'],
];

/** How the picture is shown, and the way to a file of it. */
export function FrameFoot({ canvasRef }: { readonly canvasRef: RefObject<HTMLCanvasElement | null> }) {
  const mode = useSession((state) => state.pictureMode);
  const smooth = useSession((state) => state.smooth);
  const hasFilm = useTrace((state) => state.film !== null && state.samples > 0);
  const { savePicture } = useServices();
  const save = () => {
    const { film, smooth: copy } = traceStore.getState();
    const smoothShown = smooth && mode === 'picture' && copy !== null && copy.of === film;
    const { setup } = documentStore.getState();
    const { frameId } = sessionStore.getState();
    const frame = setup.frames.find((entry) => entry.id === frameId) ?? setup.frames[0];
    canvasRef.current?.toBlob((png) => {
      if (png) void savePicture(png, `${setup.title}, ${frame.name}${smoothShown ? ', smoothed' : ''}`);
    }, 'image/png');
  };
  return (
    <div className="kg-frame-words">
      <fieldset aria-label="Show the picture as" className="kg-frame-modes">
        {MODES.map(([value, word]) => (
          <button
            key={value}
            type="button"
            className="kg-word"
            aria-pressed={mode === value}
            onClick={() => sessionStore.setState({ pictureMode: value })}
          >
            {word}
          </button>
        ))}
        <button
          type="button"
          className="kg-word kg-smooth"
          aria-pressed={smooth}
          title="Smooth the grain of the traced picture. Figures are always read from the picture as traced."
          onClick={() => sessionStore.setState({ smooth: !smooth })}
        >
          Smooth
        </button>
      </fieldset>
      <button type="button" className="kg-action" disabled={!hasFilm} onClick={save}>
        Save picture
      </button>
    </div>
  );
}
