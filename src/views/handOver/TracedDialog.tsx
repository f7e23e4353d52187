import { Dialog } from '@base-ui-components/react/dialog';
import type { ReactNode } from 'react';
import { checkSettingsOf } from '../../document/checkSettings.ts';
import {
  type TracedJob,
  type TracedKind,
  useDocument,
  useFrameScene,
  useServices,
  useSession,
} from '../session/index.ts';
import { changeJob, handOverStore, openHandOver, useHandOver } from './handOverStore.ts';
import { TRACED_WORDS } from './tracedKinds.ts';

const SAMPLES: readonly (readonly [number, string])[] = [
  [32, 'proof'],
  [128, 'good'],
  [512, 'fine'],
];
const WIDTHS = [960, 1920, 3840] as const;

/** How large and how clean a picture is to be before it is traced anew, and how far the trace has come. */
export function TracedDialog({ kind }: { readonly kind: TracedKind }) {
  const running = useHandOver((state) => state.running);
  const job = useHandOver((state) => state.job);
  const { handOverTraced } = useServices();
  const { name, line } = TRACED_WORDS[kind];
  const scene = useFrameScene();
  const missing = kind === 'turn' && !scene.turntable ? 'There is no turntable in this frame.' : null;
  const start = () => {
    const stopper = new AbortController();
    const words = name;
    handOverStore.setState({ running: { words, progress: null, stop: () => stopper.abort() } });
    void handOverTraced(
      { ...job, kind },
      (progress) => handOverStore.setState(({ running: now }) => ({ running: now && { ...now, progress } })),
      stopper.signal,
    ).finally(() => handOverStore.setState({ running: null }));
  };
  return (
    <Dialog.Root open onOpenChange={(open) => !open && openHandOver(null)}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-out-shade" />
        <Dialog.Popup className="kg-float kg-out" data-testid="traced-dialog">
          <Dialog.Title className="kg-out-title">{name}</Dialog.Title>
          <Dialog.Description className="kg-out-line">{line}</Dialog.Description>
          <Options kind={kind} job={job} locked={running !== null} />
          {running ? <Running /> : null}
          {missing && <p className="kg-out-note">{missing}</p>}
          <div className="kg-out-foot">
            <p className="kg-out-note">{running ? 'You can close this and go on; it is saved when it is done.' : ''}</p>
            <Dialog.Close className="kg-word">Close</Dialog.Close>
            {running ? (
              <button type="button" className="kg-action" onClick={running.stop} data-testid="traced-stop">
                Stop
              </button>
            ) : (
              <button
                type="button"
                className="kg-action"
                data-main=""
                disabled={missing !== null}
                onClick={start}
                data-testid="traced-start"
              >
                Trace and save
              </button>
            )}
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function Running() {
  const running = useHandOver((state) => state.running);
  if (!running) return null;
  const share = running.progress?.share ?? 0;
  return (
    <div className="kg-out-running" role="status">
      <progress className="kg-out-bar" max={1} value={share} aria-label="Progress" />
      <p>
        <span className="kg-figure">{Math.floor(share * 100)} %</span>
        <span className="kg-quiet"> {running.progress?.words ?? running.words}</span>
      </p>
    </div>
  );
}

function Options({
  kind,
  job,
  locked,
}: {
  readonly kind: TracedKind;
  readonly job: TracedJob;
  readonly locked: boolean;
}) {
  const setup = useDocument((state) => state.setup);
  const frameId = useSession((state) => state.frameId);
  const frame = setup.frames.find(({ id }) => id === frameId) ?? setup.frames[0];
  const deliveryPx = checkSettingsOf(setup, frame).capture.pictureWidthPx;
  const widths = [...new Set([...WIDTHS, deliveryPx])].sort((a, b) => a - b);
  const onSheet = kind === 'contactSheet' || kind === 'lightByLight' || kind === 'beforeAfter';
  return (
    <fieldset className="kg-out-options" disabled={locked}>
      <Choice label="Width">
        {widths.map((widthPx) => (
          <Word key={widthPx} on={job.widthPx === widthPx} onClick={() => changeJob({ widthPx })}>
            {widthPx}
            {widthPx === deliveryPx ? ' delivered' : ''}
          </Word>
        ))}
      </Choice>
      <Choice label="Samples">
        {SAMPLES.map(([samples, word]) => (
          <Word key={samples} on={job.samples === samples} onClick={() => changeJob({ samples })}>
            {samples} {word}
          </Word>
        ))}
      </Choice>
      {kind === 'picture' && (
        <Choice label="Format">
          {(['jpg', 'tif', 'png'] as const).map((format) => (
            <Word key={format} on={job.format === format} onClick={() => changeJob({ format })}>
              {{ jpg: 'JPEG', tif: 'TIFF, 16 bits', png: 'PNG' }[format]}
            </Word>
          ))}
        </Choice>
      )}
      {onSheet && (
        <Choice label="Paper">
          {(['a4', 'letter'] as const).map((paper) => (
            <Word key={paper} on={job.paper === paper} onClick={() => changeJob({ paper })}>
              {paper === 'a4' ? 'A4' : 'Letter'}
            </Word>
          ))}
        </Choice>
      )}
      {kind === 'turn' && (
        <>
          <Choice label="Pictures">
            {([12, 36, 'all'] as const).map((turnFrames) => (
              <Word key={turnFrames} on={job.turnFrames === turnFrames} onClick={() => changeJob({ turnFrames })}>
                {turnFrames === 'all' ? 'every frame' : turnFrames}
              </Word>
            ))}
          </Choice>
          <Choice label="Marked">
            <Word on={job.markHighlight} onClick={() => changeJob({ markHighlight: !job.markHighlight })}>
              highlight
            </Word>
            <Word on={job.markRunOut} onClick={() => changeJob({ markRunOut: !job.markRunOut })}>
              run-out
            </Word>
          </Choice>
        </>
      )}
      {kind === 'clientPage' && (
        <Choice label="Brief">
          <Word on={job.showNotes} onClick={() => changeJob({ showNotes: !job.showNotes })}>
            with its notes
          </Word>
        </Choice>
      )}
    </fieldset>
  );
}

function Choice({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <div className="kg-out-choice">
      <span className="kg-label">{label}</span>
      <span className="kg-out-words">{children}</span>
    </div>
  );
}

function Word({ on, onClick, children }: { readonly on: boolean; onClick(): void; readonly children: ReactNode }) {
  return (
    <button type="button" className="kg-word" aria-pressed={on} onClick={onClick}>
      {children}
    </button>
  );
}
