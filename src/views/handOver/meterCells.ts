import { ev100FromIlluminance, meterStop } from '../../camera/exposure.ts';
import type { Camera } from '../../camera/records.ts';
import { luxFromDisplay, type MeterDisplay, type OnSetReading } from '../../deliverables/meterMatch/meterReading.ts';
import type { PredictedReading } from '../../deliverables/sheets/predictedReadings.ts';

export type MeterUnit = MeterDisplay['unit'];

export const METER_UNITS: readonly (readonly [MeterUnit, string])[] = [
  ['lux', 'lux'],
  ['ev100', 'EV at ISO 100'],
  ['fNumber', 'stop'],
];

/** Column of all lights together, beside one for each light alone. */
export const ALL_LIGHTS = 'all';

/** What was typed, by `cellKey`. */
export type MeterCells = Readonly<Record<string, string>>;

export const cellKey = (pointId: string, column: string): string => `${pointId}|${column}`;

type Exposure = Pick<Camera, 'iso' | 'shutterS'>;

/** What a typed reading stands for; null when it is no number. 'f/5.6' and a decimal comma are understood. */
export function readDisplay(text: string, unit: MeterUnit, { iso, shutterS }: Exposure): MeterDisplay | null {
  const plain = text
    .trim()
    .replace(/^f\s*\/?\s*/i, '')
    .replace(',', '.');
  if (plain === '') return null;
  const value = Number(plain);
  if (!Number.isFinite(value)) return null;
  return unit === 'fNumber' ? { unit, value, iso, shutterS } : { unit, value };
}

/** A predicted or read illuminance as a meter set to this unit shows it; a dash in the dark. */
export function showLux(lux: number, meterC: number, unit: MeterUnit, { iso, shutterS }: Exposure): string {
  if (unit === 'lux') return lux >= 100 ? lux.toFixed(0) : lux.toFixed(1);
  if (!(lux > 0.01)) return '\u2013';
  return unit === 'ev100'
    ? ev100FromIlluminance(lux, meterC).toFixed(1)
    : meterStop(lux, iso, shutterS, meterC).toFixed(1);
}

/** Everything that was typed, in another unit: figures are carried over, what is no number is left as it is. */
export function convertCells(
  cells: MeterCells,
  predictions: readonly PredictedReading[],
  from: MeterUnit,
  to: MeterUnit,
  exposure: Exposure,
): MeterCells {
  return Object.fromEntries(
    Object.entries(cells).map(([key, text]) => {
      const point = pointOfKey(key, predictions);
      const display = readDisplay(text, from, exposure);
      const lux = display && point ? luxFromDisplay(display, point.meterC) : null;
      return [key, lux?.ok && point ? showLux(lux.value, point.meterC, to, exposure) : text];
    }),
  );
}

/** The readings that the solver takes, each with the cell that it was typed in. */
export function readingsOf(
  cells: MeterCells,
  predictions: readonly PredictedReading[],
  unit: MeterUnit,
  exposure: Exposure,
  repeatStops: number,
): { readonly keys: readonly string[]; readonly readings: readonly OnSetReading[] } {
  const found = Object.entries(cells).flatMap(([key, text]) => {
    const display = readDisplay(text, unit, exposure);
    const point = pointOfKey(key, predictions);
    if (!display || !point) return [];
    const column = key.slice(key.lastIndexOf('|') + 1);
    const reading: OnSetReading = {
      pointId: point.id,
      display,
      repeatStops,
      ...(column === ALL_LIGHTS ? {} : { litFixtureIds: [column] }),
    };
    return [{ key, reading }];
  });
  return { keys: found.map(({ key }) => key), readings: found.map(({ reading }) => reading) };
}

const pointOfKey = (key: string, predictions: readonly PredictedReading[]) =>
  predictions.find(({ point }) => point.id === key.slice(0, key.lastIndexOf('|')))?.point;
