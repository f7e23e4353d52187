import { createElement } from 'react';
import { hexFromRec709 } from '../../core/color/index.ts';
import type { Field } from './fields.ts';
import { linearFromHex } from './hexColour.ts';

/** What leva says when a control changes. Only changes that came from the panel itself are edits. */
interface ChangeContext {
  readonly initial: boolean;
  readonly fromPanel?: boolean;
}

export interface LevaInput {
  readonly value: unknown;
  readonly label: string | ReturnType<typeof createElement>;
  onChange(value: unknown, path: string, context: ChangeContext): void;
  onEditEnd(): void;
  readonly transient: false;
  readonly [setting: string]: unknown;
}

interface EditHandlers {
  onEdit(field: Field, value: unknown): void;
  onEditEnd(): void;
}

/** One field as a leva control. Its value is a copy: the document stays the truth. */
export function levaInput(field: Field, { onEdit, onEditEnd }: EditHandlers): LevaInput {
  return {
    value: levaValue(field),
    label: field.unit
      ? createElement('span', null, field.label, createElement('span', { className: 'kg-unit' }, field.unit))
      : field.label,
    onChange: (value, _path, context) => {
      if (!context.initial && context.fromPanel) onEdit(field, value);
    },
    onEditEnd,
    transient: false,
    ...levaSettings(field),
  };
}

function levaSettings(field: Field): Readonly<Record<string, unknown>> {
  switch (field.type) {
    case 'number':
      return field.slider
        ? { min: field.min, max: field.max, step: field.step, pad: field.decimals }
        : { step: field.step, pad: field.decimals, ...(field.min === undefined ? {} : { min: field.min }) };
    case 'point': {
      const component = { step: field.step, pad: field.decimals };
      return { x: component, y: component, z: component };
    }
    case 'choice':
      return { options: field.options };
    default:
      return {};
  }
}

/** The value that the control of a field shows. */
export function levaValue(field: Field): unknown {
  switch (field.type) {
    case 'point':
      return { x: field.value[0], y: field.value[1], z: field.value[2] };
    case 'colour':
      return hexFromRec709(field.value);
    default:
      return field.value;
  }
}

/** The patch for a value that came from a control; null when it is not one that the field can take. */
export function patchFromLeva(field: Field, value: unknown): Readonly<Record<string, unknown>> | null {
  switch (field.type) {
    case 'number': {
      if (typeof value !== 'number' || !Number.isFinite(value)) return null;
      const clamped = Math.min(field.max ?? value, Math.max(field.min ?? value, value));
      const next = keepUnlessChanged(field.value, clamped, field.decimals);
      return next === field.value ? {} : field.patch(Number(next.toPrecision(12)));
    }
    case 'point': {
      if (!isXyz(value)) return null;
      const next = [value.x, value.y, value.z].map((v, i) => keepUnlessChanged(field.value[i], v, field.decimals));
      return next.every((v, i) => v === field.value[i]) ? {} : field.patch([next[0], next[1], next[2]]);
    }
    case 'toggle':
      if (typeof value !== 'boolean') return null;
      // Fitting what is fitted must not set it back to its first form.
      return value === field.value ? {} : field.patch(value);
    case 'text':
    case 'choice':
      return typeof value === 'string' ? field.patch(value) : null;
    case 'colour':
      return typeof value === 'string' ? field.patch(linearFromHex(value)) : null;
  }
}

/**
 * leva hands back what it shows, rounded, when a field merely loses the focus. What reads the same as before is taken as
 * untouched, so that looking at a record never changes it.
 */
const keepUnlessChanged = (before: number, entered: number, decimals: number): number =>
  entered.toFixed(decimals) === before.toFixed(decimals) ? before : entered;

const isXyz = (value: unknown): value is { readonly x: number; readonly y: number; readonly z: number } =>
  typeof value === 'object' &&
  value !== null &&
  ['x', 'y', 'z'].every((key) => Number.isFinite((value as Record<string, unknown>)[key]));
