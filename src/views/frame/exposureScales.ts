import { nearestStop, THIRD_STOPS } from '../../camera/stops.ts';

/** Shutter times as marked, in thirds, seconds. */
const SHUTTER_MARKS =
  '30 25 20 15 13 10 8 6 5 4 3.2 2.5 2 1.6 1.3 1 0.8 0.6 0.5 0.4 0.3 1/4 1/5 1/6 1/8 1/10 1/13 1/15 1/20 1/25 1/30 1/40 1/50 1/60 1/80 1/100 1/125 1/160 1/200 1/250 1/320 1/400 1/500 1/640 1/800 1/1000 1/1250 1/1600 1/2000 1/2500 1/3200 1/4000 1/5000 1/6400 1/8000'.split(
    ' ',
  );
export const SHUTTER_TIMES_S: readonly number[] = SHUTTER_MARKS.map(secondsFromText).toReversed();

/** Sensitivities as marked, in thirds. */
export const ISO_MARKS: readonly number[] = [
  50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400,
  8000, 10000, 12800, 16000, 20000, 25600,
];

/** '1/50' or '0.5' or '2' as seconds; NaN when it is neither. */
export function secondsFromText(text: string): number {
  const match = /^\s*(?:(\d+(?:\.\d+)?)\s*\/\s*)?(\d+(?:\.\d+)?)\s*s?\s*$/.exec(text);
  if (!match) return Number.NaN;
  return match[1] === undefined ? Number(match[2]) : Number(match[1]) / Number(match[2]);
}

/** 'f/8', '8' or '5.6' as the exact f-number behind the mark; NaN when it cannot be read. */
export function fNumberFromText(text: string): number {
  const match = /^\s*(?:f\s*\/?\s*)?(\d+(?:\.\d+)?)\s*$/i.exec(text);
  if (!match) return Number.NaN;
  const marked = THIRD_STOPS.find((stop) => stop.marked === String(Number(match[1])));
  return roundTo4(marked?.fNumber ?? Number(match[1]));
}

/** The next third of a stop from wherever the lens stands; three thirds when large. */
export function stepFNumber(fNumber: number, direction: 1 | -1, large: boolean): number {
  const k = Math.round(6 * Math.log2(nearestStop(fNumber).fNumber));
  const next = THIRD_STOPS[Math.min(THIRD_STOPS.length - 1, Math.max(0, k + direction * (large ? 3 : 1)))];
  return roundTo4(next?.fNumber ?? fNumber);
}

/** The next mark of an ascending scale, nearest in ratio to where the value stands; three marks when large. */
export function stepOnScale(scale: readonly number[], value: number, direction: 1 | -1, large: boolean): number {
  let nearest = 0;
  for (let i = 1; i < scale.length; i++) {
    if (Math.abs(Math.log(scale[i] / value)) < Math.abs(Math.log(scale[nearest] / value))) nearest = i;
  }
  return scale[Math.min(scale.length - 1, Math.max(0, nearest + direction * (large ? 3 : 1)))];
}

/** The mark of the nearest third; a stop further off than a sixth of a third shows its own figure. */
export function fNumberText(fNumber: number): string {
  const stop = nearestStop(fNumber);
  const offStops = Math.abs(2 * Math.log2(fNumber / stop.fNumber));
  return offStops < 0.12 ? `f/${stop.marked}` : `f/${fNumber.toFixed(fNumber < 10 ? 1 : 0)}`;
}

const roundTo4 = (value: number): number => Math.round(value * 1e4) / 1e4;
