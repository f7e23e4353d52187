import { toggleTape, useTape } from '../arrange/index.ts';
import { sessionStore } from '../session/index.ts';
import type { Projection } from './projection.ts';
import { formatScale, type SheetView, scaleBarM } from './sheetScale.ts';

const SHEETS: readonly { readonly projection: Projection; readonly word: string }[] = [
  { projection: 'plan', word: 'Plan' },
  { projection: 'front', word: 'Front' },
  { projection: 'side', word: 'Side' },
];
const BAR_PX = 96;

interface SheetCornerProps {
  readonly projection: Projection;
  readonly view: SheetView;
  onFit(): void;
}

/** Which sheet this is, at what scale, and a bar to measure by. */
export function SheetCorner({ projection, view, onFit }: SheetCornerProps) {
  const tapeOut = useTape((state) => state.out);
  const barM = scaleBarM(view.pxPerM, BAR_PX);
  const barPx = barM * view.pxPerM;
  return (
    <>
      <nav className="kg-sheet-words" aria-label="Sheet">
        <button
          type="button"
          className="kg-word kg-sheet-tape"
          aria-pressed={tapeOut}
          title="Measure between two places (R)"
          onClick={toggleTape}
        >
          Tape
        </button>
        {SHEETS.map(({ projection: of, word }) => (
          <button
            key={of}
            type="button"
            className="kg-word"
            aria-pressed={projection === of}
            onClick={() => sessionStore.setState({ drawingProjection: of })}
          >
            {word}
          </button>
        ))}
      </nav>
      <div className="kg-sheet-scale">
        <svg width={barPx + 2} height={9} aria-hidden="true">
          <path d={`M1 1V8M${barPx + 1} 1V8M1 4.5H${barPx + 1}M${barPx / 2 + 1} 2.5V6.5`} />
        </svg>
        <span className="kg-figure">{barM < 1 ? `${Math.round(barM * 100)} cm` : `${barM} m`}</span>
        <button type="button" className="kg-figure kg-sheet-fit" title="Fit the sheet" onClick={onFit}>
          {formatScale(view.pxPerM)}
        </button>
      </div>
    </>
  );
}
