import type { RecordChange } from '../../analysis/contracts.ts';
import { fail, ok, type Result } from '../../core/result.ts';
import { stopsFromRatio } from '../../core/units.ts';
import { type Fixture, outputSchema } from '../../fixtures/records.ts';
import type { PredictedReading } from '../sheets/predictedReadings.ts';
import { fitOutputs, type OutputFit } from './fitOutputs.ts';
import { invertSymmetric, type Matrix } from './leastSquares.ts';
import { luxFromDisplay, type OnSetReading } from './meterReading.ts';
import { jointFactor, normalQuantile } from './normal.ts';

export interface MatchInput {
  /** Lights of the frame, in the order of the predictions. */
  readonly fixtures: readonly Fixture[];
  readonly predictions: readonly PredictedReading[];
  readonly readings: readonly OnSetReading[];
}

/** What the readings say about one light. */
export interface OutputMatch {
  readonly fixtureId: string;
  /**
   * - `found`: the true output differs from the setup's by `overStops`.
   * - `dark`: the readings leave nothing for this light: it is off, blocked or aimed elsewhere.
   * - `unknown`: no reading tells it from the others; read it alone.
   */
  readonly state: 'found' | 'dark' | 'unknown';
  readonly overStops: number | null;
  /** All lights that are found lie within theirs at once with 99 % confidence, if the meter repeats as stated. */
  readonly uncertaintyStops: number | null;
}

export interface ReadingMatch {
  readonly index: number;
  readonly readLux: number;
  readonly fittedLux: number;
  readonly differenceStops: number;
  /** Difference from what all the other readings foretell, in standard deviations; null when no other speaks of it. */
  readonly deviations: number | null;
}

export interface MeterMatch {
  readonly outputs: readonly OutputMatch[];
  readonly readings: readonly ReadingMatch[];
  /** The reading that does not fit with the others, if one stands out beyond chance (1 in 100). */
  readonly suspect: ReadingMatch | null;
  /** Sum of squared deviations and how many of them are free: about equal when setup and meter agree. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Makes the setup's lights give what was metered; to be checked before it is applied when a reading is suspect. */
  readonly changes: readonly RecordChange[];
}

/** One standard deviation of a hand-held reading, position of the hand included, stops. Common practice, no source. */
export const USUAL_REPEAT_STOPS = 0.1;
const CONFIDENCE = 0.99;
/** Chance that a sound set of readings names one of them. */
const FALSE_ALARM = 0.01;
/** A reading that settles a light all by itself can't be checked against the others. */
const MOST_LEVERAGE = 0.98;
/** Columns nearer than this to the span of the others can't be told apart. */
const LEAST_INDEPENDENCE = 1e-3;

/**
 * The true output of each light from readings on set: non-negative weighted least squares on the predicted shares, with
 * the uncertainty from the covariance, and the reading that does not fit by leaving out each one in turn.
 */
export function matchMeter(input: MatchInput): Result<MeterMatch, string> {
  const lined = lineUp(input);
  if (!lined.ok) return lined;
  const { predicted, readLux, repeatStops } = lined.value;
  const columns = independentColumns(predicted, repeatStops);
  if (columns.length === 0)
    return fail('None of the readings sees any light of the setup: check which lights were on.');
  const kept = input.fixtures.map((_, i) => i).filter((i) => !columns.includes(i));
  // What can't be told is taken to be as the setup says.
  const assumed = predicted.map((row) => kept.reduce((sum, i) => sum + row[i], 0));
  const rows = predicted.map((row) => columns.map((i) => row[i]));
  const left = readLux.map((lux, j) => lux - assumed[j]);
  const fit = fitOutputs(rows, left, repeatStops);
  if (!fit) return fail('The readings do not tell the lights apart: read some of them alone.');
  const readings = readLux.map(
    (lux, j): ReadingMatch => ({
      index: j,
      readLux: lux,
      fittedLux: fit.fittedLux[j] + assumed[j],
      differenceStops: stopsFromRatio(Math.max(lux, 1e-3) / Math.max(fit.fittedLux[j] + assumed[j], 1e-3)),
      deviations: leaveOneOut(rows, left, repeatStops, fit, j),
    }),
  );
  const outputs = describeOutputs(input.fixtures, columns, fit);
  return ok({
    outputs,
    readings,
    suspect: findSuspect(readings, rows, left, repeatStops),
    chiSquare: fit.chiSquare,
    degreesOfFreedom: readLux.length - fit.covariance.size,
    changes: changesFor(input.fixtures, outputs),
  });
}

interface LinedUp {
  readonly predicted: Matrix;
  readonly readLux: readonly number[];
  readonly repeatStops: readonly number[];
}

function lineUp({ fixtures, predictions, readings }: MatchInput): Result<LinedUp, string> {
  const byPoint = new Map(predictions.map((prediction) => [prediction.point.id, prediction]));
  const predicted: number[][] = [];
  const readLux: number[] = [];
  const repeatStops: number[] = [];
  for (const [j, reading] of readings.entries()) {
    const prediction = byPoint.get(reading.pointId);
    if (!prediction) return fail(`Reading ${j + 1}: there is no meter point "${reading.pointId}".`);
    const unknown = reading.litFixtureIds?.find((id) => !fixtures.some((fixture) => fixture.id === id));
    if (unknown !== undefined) return fail(`Reading ${j + 1}: there is no light "${unknown}" in this frame.`);
    const lux = luxFromDisplay(reading.display, prediction.point.meterC);
    if (!lux.ok) return fail(`Reading ${j + 1}: ${lux.error}`);
    predicted.push(
      fixtures.map(({ id }, i) => (reading.litFixtureIds?.includes(id) === false ? 0 : prediction.fixtureLux[i])),
    );
    readLux.push(lux.value);
    repeatStops.push(reading.repeatStops ?? USUAL_REPEAT_STOPS);
  }
  return readings.length === 0 ? fail('There are no readings yet.') : ok({ predicted, readLux, repeatStops });
}

/** Columns that the readings can tell apart, first come first kept; each row weighed by its total, as the fit will. */
function independentColumns(predicted: Matrix, repeatStops: readonly number[]): number[] {
  const scaled = predicted.map((row, j) => {
    const total = row.reduce((sum, lux) => sum + lux, 0);
    const sigma = Math.hypot(Math.LN2 * repeatStops[j] * total, 0.5);
    return row.map((lux) => lux / sigma);
  });
  const kept: number[] = [];
  const count = predicted[0]?.length ?? 0;
  for (let i = 0; i < count; i++) {
    const norm = (column: number): number => Math.hypot(...scaled.map((row) => row[column]));
    // Less than a tenth of a standard deviation in all readings together says nothing.
    if (norm(i) < 0.1) continue;
    const tried = [...kept, i];
    const cosines = tried.map((p) =>
      tried.map((q) => scaled.reduce((sum, row) => sum + row[p] * row[q], 0) / (norm(p) * norm(q))),
    );
    if (invertSymmetric(cosines, LEAST_INDEPENDENCE)) kept.push(i);
  }
  return kept;
}

/** How far reading j lies from what the others foretell, in standard deviations of that difference. */
function leaveOneOut(
  rows: Matrix,
  lux: readonly number[],
  repeatStops: readonly number[],
  whole: OutputFit,
  j: number,
): number | null {
  if (whole.leverage[j] > MOST_LEVERAGE) return null;
  const without = <T>(list: readonly T[]): T[] => list.filter((_, k) => k !== j);
  const fit = fitOutputs(without(rows), without(lux), without(repeatStops));
  if (!fit) return null;
  const foretold = rows[j].reduce((sum, value, i) => sum + value * fit.factors[i], 0);
  let variance = (Math.LN2 * repeatStops[j] * foretold) ** 2 + 0.25;
  for (const [p, others] of fit.covariance) {
    for (const [q, value] of others) variance += rows[j][p] * value * rows[j][q];
  }
  return (lux[j] - foretold) / Math.sqrt(variance);
}

/** The reading without which the rest agree best, if it lies farther off than chance would put any of them. */
function findSuspect(
  readings: readonly ReadingMatch[],
  rows: Matrix,
  lux: readonly number[],
  repeatStops: readonly number[],
): ReadingMatch | null {
  const limit = normalQuantile(1 - FALSE_ALARM / 2 / readings.length);
  let best: ReadingMatch | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const reading of readings) {
    if (reading.deviations === null || Math.abs(reading.deviations) < limit) continue;
    const without = <T>(list: readonly T[]): T[] => list.filter((_, k) => k !== reading.index);
    const rest = fitOutputs(without(rows), without(lux), without(repeatStops));
    if (rest && rest.chiSquare < least) {
      least = rest.chiSquare;
      best = reading;
    }
  }
  return best;
}

function describeOutputs(fixtures: readonly Fixture[], columns: readonly number[], fit: OutputFit): OutputMatch[] {
  const factor = jointFactor(Math.max(1, fit.covariance.size), CONFIDENCE);
  return fixtures.map(({ id }, i): OutputMatch => {
    const column = columns.indexOf(i);
    if (column < 0) return { fixtureId: id, state: 'unknown', overStops: null, uncertaintyStops: null };
    const x = fit.factors[column];
    const variance = fit.covariance.get(column)?.get(column);
    if (variance === undefined) return { fixtureId: id, state: 'dark', overStops: null, uncertaintyStops: null };
    return {
      fixtureId: id,
      state: 'found',
      overStops: stopsFromRatio(x),
      uncertaintyStops: (factor * Math.sqrt(variance)) / (x * Math.LN2),
    };
  });
}

/** Restates the output of lights that are found; a dark one is switched off. */
function changesFor(fixtures: readonly Fixture[], outputs: readonly OutputMatch[]): RecordChange[] {
  return fixtures.flatMap((fixture, i): RecordChange[] => {
    const { state, overStops } = outputs[i];
    const update = (patch: Readonly<Record<string, unknown>>): RecordChange[] => [
      { op: 'update', collection: 'fixtures', id: fixture.id, patch },
    ];
    if (state === 'dark') return fixture.on ? update({ on: false }) : [];
    if (overStops === null || Math.abs(overStops) < 1e-6) return [];
    const output = { ...fixture.output, value: fixture.output.value * 2 ** overStops };
    return outputSchema.safeParse(output).success ? update({ output }) : [];
  });
}
