import type { CollectionName } from '../../analysis/contracts.ts';
import type { Vec3 } from '../../core/vec3.ts';
import type { DocumentChange } from '../../document/changes.ts';

export type Patch = Readonly<Record<string, unknown>>;

interface FieldBase<V> {
  /** Unique within the record that is shown. */
  readonly key: string;
  readonly label: string;
  readonly unit?: string;
  readonly value: V;
  /** The merge patch that sets the record to what was entered, back in the record's own units. */
  patch(value: V): Patch;
  /** True for what acts on the finished film (dimmer, colour, switch): the traced picture then stays up while scrubbing. */
  readonly actsOnFilm?: boolean;
}

export interface NumberField extends FieldBase<number> {
  readonly type: 'number';
  readonly min?: number;
  readonly max?: number;
  readonly step: number;
  /** Decimals that are shown. What was typed and reads the same to these changes nothing. */
  readonly decimals: number;
  /** With a slider beside the figure; needs min and max. */
  readonly slider?: boolean;
}
export interface PointField extends FieldBase<Vec3> {
  readonly type: 'point';
  readonly step: number;
  readonly decimals: number;
}
export interface ToggleField extends FieldBase<boolean> {
  readonly type: 'toggle';
}
export interface TextField extends FieldBase<string> {
  readonly type: 'text';
}
export interface ChoiceField extends FieldBase<string> {
  readonly type: 'choice';
  /** Value by the word that is shown. */
  readonly options: Readonly<Record<string, string>>;
}
/** Linear Rec. 709 reflectance, shown as the sRGB colour that it has under even white light. */
export interface ColourField extends FieldBase<Vec3> {
  readonly type: 'colour';
}

export type Field = NumberField | PointField | ToggleField | TextField | ChoiceField | ColourField;

export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly Field[];
}

/** A record as it is edited: what it is called, its groups of fields, and how a patch becomes a change. */
export interface RecordSheet {
  readonly recordId: string;
  readonly collection: CollectionName | 'turntable';
  readonly title: string;
  /** What kind of thing it is, in the trade's words. */
  readonly kindWords: string;
  readonly groups: readonly FieldGroup[];
  change(patch: Patch): DocumentChange;
  /** The change to another name, for what has one. */
  rename?(name: string): DocumentChange;
}

const roundTo = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;

interface LengthOptions {
  readonly minM?: number;
  readonly maxM?: number;
  readonly slider?: boolean;
}

/** A length of a record in metres, edited in centimetres. */
export const centimetres = (
  key: string,
  label: string,
  valueM: number,
  patch: (valueM: number) => Patch,
  { minM = 0.001, maxM = 50, slider = false }: LengthOptions = {},
): NumberField => ({
  type: 'number',
  key,
  label,
  unit: 'cm',
  value: roundTo(valueM * 100, 3),
  min: roundTo(minM * 100, 3),
  max: roundTo(maxM * 100, 3),
  step: 1,
  decimals: 1,
  slider,
  patch: (valueCm) => patch(roundTo(valueCm / 100, 5)),
});

/** A length of a record in metres, edited in millimetres. */
export const millimetres = (
  key: string,
  label: string,
  valueM: number,
  patch: (valueM: number) => Patch,
  { minM = 0.0004, maxM = 50, slider = false }: LengthOptions = {},
): NumberField => ({
  type: 'number',
  key,
  label,
  unit: 'mm',
  value: roundTo(valueM * 1000, 3),
  min: roundTo(minM * 1000, 3),
  max: roundTo(maxM * 1000, 3),
  step: 0.5,
  decimals: 1,
  slider,
  patch: (valueMm) => patch(roundTo(valueMm / 1000, 6)),
});

/** A point in metres, edited in centimetres: right, up, toward the camera side. */
export const point = (key: string, label: string, valueM: Vec3, patch: (valueM: Vec3) => Patch): PointField => ({
  type: 'point',
  key,
  label,
  unit: 'cm',
  value: scaleRounded(valueM, 100, 2),
  step: 1,
  decimals: 1,
  patch: (valueCm) => patch(scaleRounded(valueCm, 0.01, 4)),
});

const scaleRounded = (p: Vec3, factor: number, decimals: number): Vec3 => [
  roundTo(p[0] * factor, decimals),
  roundTo(p[1] * factor, decimals),
  roundTo(p[2] * factor, decimals),
];

type NumberSettings = Pick<NumberField, 'unit' | 'min' | 'max' | 'step' | 'slider' | 'actsOnFilm'> &
  Partial<Pick<NumberField, 'patch' | 'decimals'>>;

/** A plain number with its unit as it is. */
export const number = (key: string, label: string, value: number, settings: NumberSettings): NumberField => ({
  type: 'number',
  key,
  label,
  value,
  decimals: 0,
  patch: (next) => ({ [key]: next }),
  ...settings,
});

export const degrees = (
  key: string,
  label: string,
  value: number,
  min: number,
  max: number,
  patch: (value: number) => Patch = (next) => ({ [key]: next }),
): NumberField => ({
  type: 'number',
  key,
  label,
  unit: '°',
  value,
  min,
  max,
  step: 1,
  decimals: 1,
  slider: true,
  patch,
});

export const toggle = (
  key: string,
  label: string,
  value: boolean,
  patch: (value: boolean) => Patch,
  actsOnFilm = false,
): ToggleField => ({ type: 'toggle', key, label, value, patch, actsOnFilm });

export const choice = (
  key: string,
  label: string,
  value: string,
  options: Readonly<Record<string, string>>,
  patch: (value: string) => Patch = (next) => ({ [key]: next }),
): ChoiceField => ({ type: 'choice', key, label, value, options, patch });

/** Distinguishes sheets whose fields differ: the panel is built anew when it changes. */
export const sheetShape = (sheet: RecordSheet): string =>
  `${sheet.recordId} ${sheet.groups.map((group) => `${group.title}:${group.fields.map((f) => f.key).join()}`).join(' ')}`;
