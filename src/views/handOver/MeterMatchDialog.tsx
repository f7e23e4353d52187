import { Dialog } from '@base-ui-components/react/dialog';
import { useEffect, useMemo, useState } from 'react';
import { type MeterMatch, matchMeter } from '../../deliverables/meterMatch/matchMeter.ts';
import { type PredictedReading, SUBJECT_DOME_ID } from '../../deliverables/sheets/predictedReadings.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { documentStore, showNotice, useDocument, useFrameScene, useServices, useSession } from '../session/index.ts';
import { handOverStore, openHandOver, setMeterCells, useHandOver } from './handOverStore.ts';
import { MatchResult } from './MatchResult.tsx';
import { MeterTable } from './MeterTable.tsx';
import { convertCells, METER_UNITS, type MeterCells, type MeterUnit, readingsOf } from './meterCells.ts';

const NO_CELLS: MeterCells = {};
/** Spread of a meter that is held by hand, in stops: steady, usual, rough. */
const REPEATS = [0.05, 0.1, 0.2] as const;
/** Points of the backdrop that stand for the rest of its grid until all are asked for. */
const isKeyPoint = ({ point }: PredictedReading): boolean =>
  !point.id.startsWith('backdrop-') || point.id === 'backdrop-middle-centre';

type Predicted =
  | { readonly state: 'busy' }
  | { readonly state: 'there'; readonly readings: readonly PredictedReading[] }
  | { readonly state: 'failed'; readonly message: string };

/** What the meter read on set, typed in beside what it should have read; the true output of each light follows. */
export function MeterMatchDialog() {
  const scene = useFrameScene();
  const frameId = useSession((state) => state.frameId);
  const cells = useHandOver((state) => state.cellsByFrame[frameId] ?? NO_CELLS);
  const unit = useHandOver((state) => state.meterUnit);
  const repeatStops = useHandOver((state) => state.repeatStops);
  const [allPoints, setAllPoints] = useState(false);
  const predicted = usePredictions();
  const readings = predicted.state === 'there' ? predicted.readings : [];
  const { camera, fixtures } = scene;

  const { keys, match } = useMemo(() => {
    const typed = readingsOf(cells, readings, unit, camera, repeatStops);
    if (typed.readings.length === 0) return { keys: typed.keys, match: null };
    return { keys: typed.keys, match: matchMeter({ fixtures, predictions: readings, readings: typed.readings }) };
  }, [cells, readings, unit, camera, repeatStops, fixtures]);

  const suspectKey = match?.ok && match.value.suspect ? keys[match.value.suspect.index] : null;

  const changeUnit = (next: MeterUnit) => {
    setMeterCells(frameId, convertCells(cells, readings, unit, next, camera));
    handOverStore.setState({ meterUnit: next });
  };
  return (
    <Dialog.Root open onOpenChange={(open) => !open && openHandOver(null)}>
      <Dialog.Portal>
        <Dialog.Backdrop className="kg-out-shade" />
        <Dialog.Popup className="kg-float kg-match" data-testid="meter-dialog">
          <header className="kg-match-head">
            <Dialog.Title className="kg-out-title">Match a meter</Dialog.Title>
            <Dialog.Description className="kg-out-line">
              Type what the meter reads on set; grey is what it should read. One column is all lights together, the
              others are each light alone.
            </Dialog.Description>
            <div className="kg-match-tools">
              <Words label="Meter shows">
                {METER_UNITS.map(([value, word]) => (
                  <button
                    key={value}
                    type="button"
                    className="kg-word"
                    aria-pressed={unit === value}
                    onClick={() => changeUnit(value)}
                  >
                    {word}
                  </button>
                ))}
              </Words>
              <Words label="Repeats to, stops">
                {REPEATS.map((value) => (
                  <button
                    key={value}
                    type="button"
                    className="kg-word"
                    aria-pressed={repeatStops === value}
                    onClick={() => handOverStore.setState({ repeatStops: value })}
                  >
                    {value}
                  </button>
                ))}
              </Words>
              <Words label="Points">
                <button
                  type="button"
                  className="kg-word"
                  aria-pressed={allPoints}
                  onClick={() => setAllPoints(!allPoints)}
                >
                  whole backdrop
                </button>
              </Words>
            </div>
          </header>
          {predicted.state === 'busy' && <p className="kg-match-wait">Reading the meter in the set.</p>}
          {predicted.state === 'failed' && (
            <p className="kg-match-wait">The meter could not be read: {predicted.message}</p>
          )}
          {predicted.state === 'there' && (
            <div className="kg-match-body">
              <MeterTable
                predictions={readings.filter((reading) => allPoints || isKeyPoint(reading))}
                fixtures={fixtures}
                camera={camera}
                unit={unit}
                cells={cells}
                onChange={(next) => setMeterCells(frameId, next)}
                suspectKey={suspectKey}
                doubt={match?.ok ? doubtsByKey(keys, match.value) : {}}
              />
              <MatchResult
                match={match}
                fixtures={fixtures}
                suspect={suspectKey === null ? null : suspectWords(suspectKey, readings, fixtures)}
                onLeaveOut={() => suspectKey !== null && setMeterCells(frameId, withoutCell(cells, suspectKey))}
              />
            </div>
          )}
          <div className="kg-out-foot">
            <button
              type="button"
              className="kg-word"
              disabled={Object.keys(cells).length === 0}
              onClick={() => setMeterCells(frameId, {})}
            >
              Clear readings
            </button>
            <span className="kg-out-space" />
            <Dialog.Close className="kg-word">Close</Dialog.Close>
            <button
              type="button"
              className="kg-action"
              data-main=""
              data-testid="meter-apply"
              disabled={!match?.ok || match.value.changes.length === 0}
              onClick={() => match?.ok && applyMatch(match.value)}
            >
              Use these outputs
            </button>
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

const withoutCell = (cells: MeterCells, key: string): MeterCells =>
  Object.fromEntries(Object.entries(cells).filter(([other]) => other !== key));

/** One step of the document: frame, desk and checks all read the outputs from it. */
function applyMatch(match: MeterMatch): void {
  const applied = documentStore.apply('Match the meter', match.changes);
  if (!applied.ok) return;
  showNotice({
    tone: 'done',
    text: `The outputs of ${match.changes.length} ${match.changes.length === 1 ? 'light are' : 'lights are'} as metered.`,
    action: { label: 'Undo', run: () => documentStore.undo() },
  });
}

/** Predicted anew when the set changes; the last answer stays up meanwhile. */
function usePredictions(): Predicted {
  const { predictMeter } = useServices();
  const revision = useDocument((state) => state.revision);
  const frameId = useSession((state) => state.frameId);
  const [predicted, setPredicted] = useState<Predicted>({ state: 'busy' });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the set is read from the stores when it or the frame changes
  useEffect(() => {
    let wanted = true;
    predictMeter().then(
      (readings) => wanted && setPredicted({ state: 'there', readings }),
      (error: unknown) =>
        wanted && setPredicted({ state: 'failed', message: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      wanted = false;
    };
  }, [predictMeter, revision, frameId]);
  return predicted;
}

/** How far each reading is from what the others foretell, by cell, in stops. */
const doubtsByKey = (keys: readonly string[], { readings }: MeterMatch): Readonly<Record<string, number>> =>
  Object.fromEntries(readings.map(({ index, differenceStops }) => [keys[index], differenceStops]));

function suspectWords(key: string, readings: readonly PredictedReading[], fixtures: readonly Fixture[]): string {
  const [pointId, column] = [key.slice(0, key.lastIndexOf('|')), key.slice(key.lastIndexOf('|') + 1)];
  const point = readings.find((reading) => reading.point.id === pointId)?.point;
  const light = fixtures.find(({ id }) => id === column);
  const where = point ? (point.id === SUBJECT_DOME_ID ? 'the subject, dome' : `${point.name}, ${point.held}`) : pointId;
  return `${where}, ${light ? `${light.name} alone` : 'all lights'}`;
}

function Words({ label, children }: { readonly label: string; readonly children: React.ReactNode }) {
  return (
    <div className="kg-out-choice">
      <span className="kg-label">{label}</span>
      <span className="kg-out-words">{children}</span>
    </div>
  );
}
