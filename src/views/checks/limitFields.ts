import type { CheckLimits, CheckName } from '../../analysis/contracts.ts';
import { DEFAULT_LIMITS } from '../../analysis/limits.ts';

/** Keys of the limits that hold one number, and of those that hold one of a few words. */
export type NumberLimit = {
  [K in keyof CheckLimits]-?: NonNullable<CheckLimits[K]> extends number ? K : never;
}[keyof CheckLimits];
export type WordLimit = {
  [K in keyof CheckLimits]-?: NonNullable<CheckLimits[K]> extends string ? K : never;
}[keyof CheckLimits];

/** How a number is shown and stepped: what one unit of it is in the record, and how it is written. */
export interface LimitUnit {
  readonly word: string;
  /** Shown figure = record figure x this. */
  readonly perRecordUnit: number;
  readonly step: number;
  readonly largeStep: number;
  readonly decimals: number;
}

const UNITS = {
  stops: { word: 'stops', perRecordUnit: 1, step: 0.1, largeStep: 0.5, decimals: 1 },
  percent: { word: '%', perRecordUnit: 100, step: 1, largeStep: 5, decimals: 1 },
  cm: { word: 'cm', perRecordUnit: 100, step: 1, largeStep: 5, decimals: 1 },
  mm: { word: 'mm', perRecordUnit: 1000, step: 1, largeStep: 10, decimals: 0 },
  degrees: { word: '\u00b0', perRecordUnit: 1, step: 1, largeStep: 5, decimals: 0 },
  count: { word: '', perRecordUnit: 1, step: 1, largeStep: 5, decimals: 0 },
  circles: { word: 'circles', perRecordUnit: 1, step: 1, largeStep: 5, decimals: 0 },
  divisor: { word: '', perRecordUnit: 1, step: 50, largeStep: 250, decimals: 0 },
  px: { word: 'px', perRecordUnit: 1, step: 1, largeStep: 5, decimals: 0 },
  min: { word: 'min', perRecordUnit: 1, step: 1, largeStep: 5, decimals: 0 },
  mired: { word: 'mired', perRecordUnit: 1, step: 5, largeStep: 20, decimals: 0 },
  duv: { word: 'duv', perRecordUnit: 1, step: 0.001, largeStep: 0.005, decimals: 3 },
  newtonMetres: { word: 'N m', perRecordUnit: 1, step: 1, largeStep: 5, decimals: 0 },
} as const satisfies Record<string, LimitUnit>;

export type LimitField =
  | { readonly type: 'number'; readonly key: NumberLimit; readonly label: string; readonly unit: LimitUnit }
  | {
      readonly type: 'word';
      readonly key: WordLimit;
      readonly label: string;
      readonly words: Readonly<Record<string, string>>;
    };

const number = (key: NumberLimit, label: string, unit: keyof typeof UNITS): LimitField => ({
  type: 'number',
  key,
  label,
  unit: UNITS[unit],
});
const word = (key: WordLimit, label: string, words: Readonly<Record<string, string>>): LimitField => ({
  type: 'word',
  key,
  label,
  words,
});

/** What can be set of each check, in the words of the set. `edges` of single makers are set where the edge is. */
export const LIMIT_FIELDS: Readonly<Record<CheckName, readonly LimitField[]>> = {
  reflections: [
    number('reflectionCareStops', 'Take care from', 'stops'),
    number('reflectionStopStops', 'Fix from', 'stops'),
  ],
  familyOfAngles: [number('familyClearanceM', 'Room to keep', 'cm')],
  thingsInFrame: [number('thingInFrameCareShare', 'Part of the frame', 'percent')],
  flare: [number('flareCareShare', 'Take care from', 'percent'), number('flareStopShare', 'Fix from', 'percent')],
  exposure: [
    number('exposureCareStops', 'Take care from', 'stops'),
    number('exposureStopStops', 'Fix from', 'stops'),
    number('clippedCareShare', 'May clip', 'percent'),
  ],
  ratios: [
    number('keyToFillMinStops', 'Key to fill, least', 'stops'),
    number('keyToFillMaxStops', 'Key to fill, most', 'stops'),
    number('subjectToBackgroundMinStops', 'Subject over background, least', 'stops'),
    number('subjectToBackgroundMaxStops', 'Subject over background, most', 'stops'),
  ],
  background: [
    word('backgroundWanted', 'Wanted', { any: 'either', even: 'even', graded: 'graded' }),
    word('backgroundRead', 'Read', { asSeen: 'as seen', litParts: 'by its lit parts', smoothed: 'smoothed' }),
    number('backgroundCareStops', 'Even: take care from', 'stops'),
    number('backgroundStopStops', 'Even: fix from', 'stops'),
    number('backgroundGradedStops', 'Graded: at least', 'stops'),
    number('backgroundPlaceU', 'Bright end, from the left', 'percent'),
    number('backgroundPlaceV', 'Bright end, from the top', 'percent'),
    number('backgroundPlaceTolerance', 'Off by at most', 'percent'),
  ],
  spillAndShadows: [
    number('shadowCount', 'Shadows wanted', 'count'),
    number('shadowSeenStops', 'Counts from', 'stops'),
    number('shadowMergeDeg', 'One within', 'degrees'),
  ],
  shadowMakers: [
    word('edgeWanted', 'Edges wanted', { any: 'either', crisp: 'crisp', soft: 'soft' }),
    number('edgePenumbraM', 'Crisp up to', 'mm'),
    number('patternContrastCare', 'Contrast of a pattern', 'percent'),
  ],
  lightDirection: [number('lightDirectionCareDeg', 'Take care from', 'degrees')],
  depthOfField: [
    number('circleOfConfusionDivisor', 'Sharp: diagonal over', 'divisor'),
    number('blurCareCircles', 'Take care from', 'circles'),
    number('blurStopCircles', 'Fix from', 'circles'),
  ],
  practical: [
    number('practicalCareStops', 'Over clipping, take care', 'stops'),
    number('practicalStopStops', 'Over clipping, fix', 'stops'),
  ],
  glow: [
    number('glowMinStops', 'Drink over its surroundings', 'stops'),
    number('edgeContrastCareStops', 'Outline of the glass', 'stops'),
  ],
  colourMix: [
    number('mixNoteMired', 'Worth a note from', 'mired'),
    number('mixCareMired', 'Take care from', 'mired'),
    number('tintNoteDuv', 'Green or magenta, note', 'duv'),
    number('tintCareDuv', 'Green or magenta, care', 'duv'),
  ],
  turntable: [
    number('runOutCarePx', 'Wobble', 'px'),
    number('turnBlurCarePx', 'Blur, take care', 'px'),
    number('turnBlurStopPx', 'Blur, fix', 'px'),
    number('flickerCareShare', 'Flicker', 'percent'),
    number('turnClipCareShare', 'May clip in the turn', 'percent'),
  ],
  heroTime: [number('heroTimeCareMin', 'Take care under', 'min'), number('heroTimeStopMin', 'Fix under', 'min')],
  powerAndRigging: [
    number('circuitCareShare', 'Load of a circuit', 'percent'),
    number('boomCareNm', 'Moment of a boom', 'newtonMetres'),
  ],
};

/** The limit in force; undefined where it is not judged. */
export const numberInForce = (limits: Partial<CheckLimits>, key: NumberLimit): number | undefined =>
  limits[key] ?? DEFAULT_LIMITS[key];

/** A limit as it is written: '1.0 stops', '5 %'. */
export const limitText = (value: number | undefined, unit: LimitUnit): string => {
  if (value === undefined) return 'not judged';
  const shown = value * unit.perRecordUnit;
  const digits = Number.isInteger(Number(shown.toFixed(6))) && unit.word === '%' ? 0 : unit.decimals;
  const text = shown.toFixed(digits).replace('-', '\u2212');
  return unit.word === '\u00b0' ? `${text}\u00b0` : `${text}${unit.word ? ` ${unit.word}` : ''}`;
};

/** What somebody typed, in units of the record; NaN where it holds no number. */
export const limitFromText = (text: string, unit: LimitUnit): number =>
  Number.parseFloat(text.replace('\u2212', '-').replace(',', '.')) / unit.perRecordUnit;

/** The next value a step away, on the marks of the step, in units of the record. */
export function stepLimit(value: number | undefined, unit: LimitUnit, direction: 1 | -1, large: boolean): number {
  const step = large ? unit.largeStep : unit.step;
  const shown = (value ?? 0) * unit.perRecordUnit;
  const next = (Math.round(shown / step) + direction) * step;
  return Number((next / unit.perRecordUnit).toFixed(6)) + 0;
}
