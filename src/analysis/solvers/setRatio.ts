import type { CheckLimits, RecordChange, Remedy } from '../contracts.ts';
import { createFrameStudy } from '../frameStudy.ts';
import { keyToFillStops } from '../light/meterReading.ts';
import type { FrameStudy } from '../study.ts';
import { scaleLayers } from './scaleLayers.ts';

export type RatioLimits = Pick<
  CheckLimits,
  'keyToFillMinStops' | 'keyToFillMaxStops' | 'subjectToBackgroundMinStops' | 'subjectToBackgroundMaxStops'
>;

/** Dimmers go from full down to this. */
const LOWEST_DIM_STOPS = -12;
/** A ratio set to its very limit would be past it by rounding. */
const INSIDE_STOPS = 0.05;

/**
 * Dims the key, or all other fixtures, until key to fill is inside what the frame wants. Light adds up: with a fixture's own
 * straight light K, what comes of it by way of cards and set k, and everything else F, scaling it by s gives
 * (s (K + k) + F) / (s k + F) = r. Tried out on the new gains.
 */
export function solveKeyToFill(study: FrameStudy, keyId: string, limits: RatioLimits): Remedy[] {
  const meter = study.meter();
  const layer = study.light.layerFixtureIds.indexOf(keyId);
  // A card or cloth as the key has no dimmer of its own.
  if (layer < 0) return [];
  const key = meter.lights[0].lux;
  const byWay = Math.max(0, meter.dome.layerLux[layer] - key);
  const others = meter.dome.totalLux - key - byWay;
  const target = targetOf(keyToFillStops(meter), limits.keyToFillMinStops, limits.keyToFillMaxStops);
  if (target === null || target <= 0) return [];
  const r = 2 ** target;
  const factor = ((r - 1) * others) / (key - (r - 1) * byWay);
  if (!(factor > 0)) return [];
  const isKeyTooStrong = factor < 1;
  const ids = isKeyTooStrong ? [keyId] : study.light.layerFixtureIds.filter((id) => id !== keyId);
  return dim(study, ids, isKeyTooStrong ? factor : 1 / factor, (trial) =>
    isInside(keyToFillStops(trial.meter()), limits.keyToFillMinStops, limits.keyToFillMaxStops),
  );
}

/**
 * Dims the one fixture whose light falls most unevenly on subject and background until their ratio is inside what the
 * frame wants: (S + s Sj) / (B + s Bj) = 2^target. Tried out on the new gains.
 */
export function solveSubjectToBackground(study: FrameStudy, limits: RatioLimits): Remedy[] {
  const { dome } = study.meter();
  const background = study.background();
  if (!background) return [];
  const [min, max] = [limits.subjectToBackgroundMinStops, limits.subjectToBackgroundMaxStops];
  const target = targetOf(Math.log2(dome.totalLux / background.meanLux), min, max);
  if (target === null) return [];
  const wanted = 2 ** target;
  const candidates = study.light.layerFixtureIds
    .map((id, layer) => {
      const [onSubject, onBackground] = [dome.layerLux[layer], background.meanLayerLux[layer]];
      const rest = dome.totalLux - onSubject;
      const restBehind = background.meanLux - onBackground;
      return { id, factor: (wanted * restBehind - rest) / (onSubject - wanted * onBackground) };
    })
    .filter(({ factor }) => factor > 0 && factor < 1)
    .sort((a, b) => b.factor - a.factor);
  for (const { id, factor } of candidates) {
    const remedies = dim(study, [id], factor, (trial) => {
      const behind = trial.background();
      return behind !== null && isInside(Math.log2(trial.meter().dome.totalLux / behind.meanLux), min, max);
    });
    if (remedies.length > 0) return remedies;
  }
  return [];
}

/** The nearest ratio inside the limits, a little off the limit itself; null when there is nothing to mend. */
function targetOf(value: number, min?: number, max?: number): number | null {
  if (min !== undefined && value < min) return min + INSIDE_STOPS;
  if (max !== undefined && value > max) return max - INSIDE_STOPS;
  return null;
}

const isInside = (value: number, min?: number, max?: number): boolean =>
  (min === undefined || value >= min) && (max === undefined || value <= max);

function dim(
  study: FrameStudy,
  ids: readonly string[],
  factor: number,
  isMended: (trial: FrameStudy) => boolean,
): Remedy[] {
  const { scene } = study.input;
  const stops = Math.round(Math.log2(factor) * 100) / 100;
  const fixtures = scene.fixtures.filter(({ id, on }) => ids.includes(id) && on);
  if (fixtures.length === 0 || fixtures.some(({ dimStops }) => dimStops + stops < LOWEST_DIM_STOPS)) return [];
  const gains = scaleLayers(study.input, (id) => (ids.includes(id) ? 2 ** stops : 1));
  if (!isMended(createFrameStudy({ ...study.input, layerGains: gains }))) return [];
  const changes = fixtures.map(
    ({ id, dimStops }): RecordChange => ({
      op: 'update',
      collection: 'fixtures',
      id,
      patch: { dimStops: Math.round((dimStops + stops) * 100) / 100 },
    }),
  );
  const names = fixtures.map(({ name }) => name).join(' and ');
  return [{ label: `Dim ${names} by ${Math.abs(stops).toFixed(1)} stops`, changes }];
}
