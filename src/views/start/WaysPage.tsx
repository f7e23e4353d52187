import { Dialog } from '@base-ui-components/react/dialog';
import { emptyTable } from '../../document/starting/index.ts';
import { useDocument, useServices } from '../session/index.ts';
import { KeptSetupGrid } from './KeptSetupGrid.tsx';
import { Picture } from './Picture.tsx';
import { startPicture } from './startPictures.ts';
import { closeStart, openStart } from './startStore.ts';

/** The ways to begin, each with what it gives. */
export function WaysPage() {
  const { demos, kept, openDemo, openSetupFile, startSetup } = useServices();
  const title = useDocument((state) => state.setup.title);
  const right = demos.filter(({ wrong }) => !wrong);
  return (
    <div className="kg-start-page">
      <header className="kg-start-head">
        <Dialog.Title className="kg-start-mark">Keyglass</Dialog.Title>
        <p className="kg-start-line">
          Light a drink before the kit is hired: what the camera sees, traced; what goes wrong, measured.
        </p>
        <p className="kg-start-back">
          <button
            type="button"
            className="kg-word"
            onClick={() => {
              closeStart();
              void openSetupFile();
            }}
          >
            Open a file
          </button>
          <Dialog.Close className="kg-word">Back to {title}</Dialog.Close>
        </p>
      </header>

      <section className="kg-start-ways" aria-label="Begin">
        <button type="button" className="kg-way" data-testid="start-brief" onClick={() => openStart('brief')}>
          <Picture src={startPicture('mood-window')} />
          <span className="kg-way-name">From a brief</span>
          <span className="kg-way-line">Drink, surface, mood, format: a lit set to work on.</span>
        </button>
        <button
          type="button"
          className="kg-way"
          data-testid="start-empty"
          onClick={() => {
            startSetup(emptyTable());
            closeStart();
          }}
        >
          <EmptyTableDrawing />
          <span className="kg-way-name">An empty table</span>
          <span className="kg-way-line">A bare top, a grey stand-in, a camera. Everything else is yours.</span>
        </button>
      </section>

      {kept && <KeptSetupGrid kept={kept} />}

      <section className="kg-start-section" aria-label="Demos">
        <h2>Demos</h2>
        <p className="kg-quiet">A tea room's spring drinks card, one picture for each kind of light.</p>
        <ul className="kg-start-grid">
          {right.map((demo) => (
            <li key={demo.name}>
              <button
                type="button"
                className="kg-way"
                onClick={() => {
                  closeStart();
                  void openDemo(demo.name);
                }}
              >
                <Picture src={startPicture(`demo-${demo.name}`)} />
                <span className="kg-way-name">{demo.title}</span>
                <span className="kg-way-line">{demo.frames}</span>
              </button>
              {demos.some(({ name }) => name === `${demo.name}-wrong`) && (
                <button
                  type="button"
                  className="kg-word kg-way-wrong"
                  onClick={() => {
                    closeStart();
                    void openDemo(`${demo.name}-wrong`);
                  }}
                >
                  the same, as it goes wrong
                </button>
              )}
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}

/** A table in a few lines, as on the drawing sheet. */
function EmptyTableDrawing() {
  return (
    <span className="kg-way-picture">
      <svg viewBox="0 0 160 90" aria-hidden="true">
        <path d="M22 62H138L150 74H10Z" />
        <path d="M10 74V78H150V74" />
        <path d="M73 30H87V64H73Z" data-dash="true" />
        <path d="M80 20V24M80 70V86" data-weight="hair" />
      </svg>
    </span>
  );
}
