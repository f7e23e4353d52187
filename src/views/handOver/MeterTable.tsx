import type { Camera } from '../../camera/records.ts';
import { recordMarks } from '../../deliverables/plan/recordMarks.ts';
import type { PredictedReading } from '../../deliverables/sheets/predictedReadings.ts';
import type { Fixture } from '../../fixtures/records.ts';
import { useDocument } from '../session/index.ts';
import { ALL_LIGHTS, cellKey, type MeterCells, type MeterUnit, readDisplay, showLux } from './meterCells.ts';

interface Props {
  readonly predictions: readonly PredictedReading[];
  readonly fixtures: readonly Fixture[];
  readonly camera: Camera;
  readonly unit: MeterUnit;
  readonly cells: MeterCells;
  onChange(cells: MeterCells): void;
  /** The reading that does not fit with the others. */
  readonly suspectKey: string | null;
  /** How far each reading lies from the fit, stops. */
  readonly doubt: Readonly<Record<string, number>>;
}

/** Points down, lights across; a field for every reading that may be taken. */
export function MeterTable({ predictions, fixtures, camera, unit, cells, onChange, suspectKey, doubt }: Props) {
  const setup = useDocument((state) => state.setup);
  const marks = recordMarks(setup);
  const lit = fixtures.filter(({ on }) => on);
  const change = (key: string, text: string) => {
    const { [key]: _, ...rest } = cells;
    onChange(text.trim() === '' ? rest : { ...rest, [key]: text });
  };
  return (
    <div className="kg-match-scroll">
      <table className="kg-match-table">
        <thead>
          <tr>
            <th scope="col">Point</th>
            <th scope="col">All lights</th>
            {lit.map(({ id, name }) => (
              <th key={id} scope="col" title={name}>
                {marks.get(id)} {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {predictions.map(({ point, totalLux, fixtureLux }) => (
            <tr key={point.id}>
              <th scope="row">
                {point.name}
                <span className="kg-quiet">{point.held}</span>
              </th>
              {[
                { column: ALL_LIGHTS, lux: totalLux, name: 'all lights' },
                ...lit.map((light) => ({
                  column: light.id,
                  lux: fixtureLux[fixtures.indexOf(light)],
                  name: light.name,
                })),
              ].map(({ column, lux, name }) => {
                const key = cellKey(point.id, column);
                const text = cells[key] ?? '';
                const unread = text !== '' && readDisplay(text, unit, camera) === null;
                const off = doubt[key];
                return (
                  <td key={column}>
                    <input
                      className="kg-figure kg-match-field"
                      inputMode="decimal"
                      autoComplete="off"
                      spellCheck={false}
                      aria-label={`${point.name}, ${point.held}, ${name}`}
                      aria-invalid={unread || undefined}
                      data-suspect={key === suspectKey || undefined}
                      data-testid={`meter-${point.id}-${column}`}
                      placeholder={showLux(lux, point.meterC, unit, camera)}
                      value={text}
                      onChange={(event) => change(key, event.target.value)}
                    />
                    <span className="kg-match-off kg-figure">
                      {unread ? 'no number' : off === undefined ? '' : stopsWords(off)}
                    </span>
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

export const stopsWords = (stops: number): string =>
  Math.abs(stops) < 0.05 ? '0.0' : `${stops > 0 ? '+' : '\u2212'}${Math.abs(stops).toFixed(1)}`;
